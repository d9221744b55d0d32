CREATE TABLE `wear_answers` (
	`vehicle_seq` integer PRIMARY KEY NOT NULL,
	`settings_revision` integer NOT NULL,
	`open` text NOT NULL,
	`text` text NOT NULL,
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
-- Those worked out before have no answer made ready: their turn to be worked out anew comes after the start.
UPDATE `outlooks` SET `experience_version` = -1;--> statement-breakpoint
DROP INDEX `axle_outlooks_early`;--> statement-breakpoint
DROP INDEX `axle_outlooks_fleet_early`;--> statement-breakpoint
DROP INDEX `axle_outlooks_unassessed`;--> statement-breakpoint
DROP INDEX `axle_outlooks_measure`;--> statement-breakpoint
DROP INDEX `axle_outlooks_last_reading`;--> statement-breakpoint
CREATE INDEX `axle_outlooks_early` ON `axle_outlooks` (`early_date`,`vehicle_seq`,`axle`,`fleet`,`out_of_service_date`,`as_at_date`,`median_date`,`failing`) WHERE early_date is not null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_fleet_early` ON `axle_outlooks` (`fleet`,`early_date`,`vehicle_seq`,`axle`,`out_of_service_date`,`as_at_date`,`median_date`,`failing`) WHERE early_date is not null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_unassessed` ON `axle_outlooks` (`fleet`,`axle`,`out_of_service_date`,`unassessed`) WHERE unassessed is not null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_measure` ON `axle_outlooks` (`measure_date`,`expected_date`,`last_reading_date`,`early_date`,`as_at_date`,`out_of_service_date`,`fleet`,`unassessed`) WHERE measure_date is not null and unassessed is null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_last_reading` ON `axle_outlooks` (`last_reading_date`,`measure_date`,`expected_date`,`early_date`,`as_at_date`,`out_of_service_date`,`fleet`,`unassessed`) WHERE last_reading_date is not null and unassessed is null;
--> statement-breakpoint
-- A row without rowid that is longer than a quarter of a page gets a page of its own beside it: with one, whole
-- versions of visits take a third of the room.
CREATE TABLE `visit_versions_with_rowid` (
	`visit_seq` integer NOT NULL,
	`version` integer NOT NULL,
	`vehicle_seq` integer NOT NULL,
	`kind` text NOT NULL,
	`at` text NOT NULL,
	`key_name` text,
	`reason` text,
	`body` text NOT NULL,
	PRIMARY KEY(`visit_seq`, `version`),
	FOREIGN KEY (`visit_seq`) REFERENCES `visits`(`seq`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "visit_versions_kind" CHECK("visit_versions_with_rowid"."kind" in ('recorded', 'entries-added', 'corrected', 'voided', 'restored', 'moved')),
	CONSTRAINT "visit_versions_body" CHECK(json_valid("visit_versions_with_rowid"."body"))
) STRICT;
--> statement-breakpoint
INSERT INTO `visit_versions_with_rowid` (`visit_seq`, `version`, `vehicle_seq`, `kind`, `at`, `key_name`, `reason`, `body`) SELECT `visit_seq`, `version`, `vehicle_seq`, `kind`, `at`, `key_name`, `reason`, `body` FROM `visit_versions` ORDER BY `visit_seq`, `version`;
--> statement-breakpoint
DROP TABLE `visit_versions`;
--> statement-breakpoint
ALTER TABLE `visit_versions_with_rowid` RENAME TO `visit_versions`;
--> statement-breakpoint
CREATE TRIGGER `visit_versions_unchanged` BEFORE UPDATE ON `visit_versions` BEGIN SELECT RAISE(ABORT, 'visit_versions is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `visit_versions_kept` BEFORE DELETE ON `visit_versions` BEGIN SELECT RAISE(ABORT, 'visit_versions is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `visit_versions_not_replaced` BEFORE INSERT ON `visit_versions` WHEN EXISTS (SELECT 1 FROM `visit_versions` WHERE `visit_seq` = NEW.`visit_seq` AND `version` = NEW.`version`) BEGIN SELECT RAISE(ABORT, 'visit_versions is only ever added to'); END;
--> statement-breakpoint
CREATE TABLE `vehicle_versions_with_rowid` (
	`vehicle_seq` integer NOT NULL,
	`version` integer NOT NULL,
	`kind` text NOT NULL,
	`at` text NOT NULL,
	`key_name` text,
	`reason` text,
	`body` text NOT NULL,
	`patch` text,
	`effective_from` text,
	`merged_with` text,
	PRIMARY KEY(`vehicle_seq`, `version`),
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "vehicle_versions_kind" CHECK("vehicle_versions_with_rowid"."kind" in ('recorded', 'changed', 'merged', 'merged-into')),
	CONSTRAINT "vehicle_versions_body" CHECK(json_valid("vehicle_versions_with_rowid"."body"))
) STRICT;
--> statement-breakpoint
INSERT INTO `vehicle_versions_with_rowid` (`vehicle_seq`, `version`, `kind`, `at`, `key_name`, `reason`, `body`, `patch`, `effective_from`, `merged_with`) SELECT `vehicle_seq`, `version`, `kind`, `at`, `key_name`, `reason`, `body`, `patch`, `effective_from`, `merged_with` FROM `vehicle_versions` ORDER BY `vehicle_seq`, `version`;
--> statement-breakpoint
DROP TABLE `vehicle_versions`;
--> statement-breakpoint
ALTER TABLE `vehicle_versions_with_rowid` RENAME TO `vehicle_versions`;
--> statement-breakpoint
CREATE TRIGGER `vehicle_versions_unchanged` BEFORE UPDATE ON `vehicle_versions` BEGIN SELECT RAISE(ABORT, 'vehicle_versions is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `vehicle_versions_kept` BEFORE DELETE ON `vehicle_versions` BEGIN SELECT RAISE(ABORT, 'vehicle_versions is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `vehicle_versions_not_replaced` BEFORE INSERT ON `vehicle_versions` WHEN EXISTS (SELECT 1 FROM `vehicle_versions` WHERE `vehicle_seq` = NEW.`vehicle_seq` AND `version` = NEW.`version`) BEGIN SELECT RAISE(ABORT, 'vehicle_versions is only ever added to'); END;
