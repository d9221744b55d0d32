DROP INDEX `vehicles_registration`;--> statement-breakpoint
ALTER TABLE `vehicles` ADD `registration_key` text;--> statement-breakpoint
ALTER TABLE `vehicles` ADD `search_key` text;--> statement-breakpoint
-- The program gives SQLite this function while it migrates; see identifierKey.
UPDATE `vehicles` SET
  `registration_key` = nullif(identifier_key(`registration`), ''),
  `search_key` = identifier_key(`registration`) || ' ' || identifier_key(`vin`) || ' ' || identifier_key(`external_id`);--> statement-breakpoint
CREATE INDEX `vehicles_search` ON `vehicles` (`search_key`,`fleet`) WHERE merged_into is null;--> statement-breakpoint
CREATE INDEX `vehicles_registration` ON `vehicles` (`registration_key`);