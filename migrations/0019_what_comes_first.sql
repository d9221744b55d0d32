ALTER TABLE `axle_outlooks` ADD `part` text;--> statement-breakpoint
ALTER TABLE `axle_outlooks` ADD `counterpart` text;--> statement-breakpoint
UPDATE `axle_outlooks` SET `part` = 'pads' WHERE `crossing` IS NOT NULL;--> statement-breakpoint
-- Stored outlooks know nothing of the dates of rotors and drums: each is recomputed on its next read or after the start.
DELETE FROM `wear_answers`;--> statement-breakpoint
UPDATE `outlooks` SET `settings_revision` = -1;
