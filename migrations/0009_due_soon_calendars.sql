CREATE TABLE `calendar_subscriptions` (
	`seq` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`key_name` text NOT NULL,
	`digest` text NOT NULL,
	`body` text NOT NULL,
	`created_at` text NOT NULL,
	FOREIGN KEY (`key_name`) REFERENCES `api_keys`(`name`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "calendar_subscriptions_body" CHECK(json_valid("calendar_subscriptions"."body"))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `calendar_subscriptions_id` ON `calendar_subscriptions` (`id`);--> statement-breakpoint
CREATE UNIQUE INDEX `calendar_subscriptions_digest` ON `calendar_subscriptions` (`digest`);--> statement-breakpoint
CREATE INDEX `calendar_subscriptions_key` ON `calendar_subscriptions` (`key_name`,`seq`);--> statement-breakpoint
ALTER TABLE `axle_outlooks` ADD `measure_date` text;--> statement-breakpoint
ALTER TABLE `axle_outlooks` ADD `expected_date` text;--> statement-breakpoint
ALTER TABLE `axle_outlooks` ADD `changed_at` text DEFAULT '2020-01-01T00:00:00.000Z' NOT NULL;--> statement-breakpoint
CREATE INDEX `axle_outlooks_measure` ON `axle_outlooks` (`measure_date`) WHERE measure_date is not null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_last_reading` ON `axle_outlooks` (`last_reading_date`) WHERE last_reading_date is not null;--> statement-breakpoint
UPDATE `axle_outlooks` SET `expected_date` = date(`as_at_date`, '+' || (
	SELECT coalesce(json_extract(`body`, '$.rhythmDays'), json_extract(`body`, '$.policy.visitIntervalDays')) FROM `outlooks` WHERE `outlooks`.`vehicle_seq` = `axle_outlooks`.`vehicle_seq`
) || ' days');
--> statement-breakpoint
UPDATE `axle_outlooks` SET `measure_date` = date(`as_at_date`, '+' || CAST(ceil(json_extract(`crossing`, '$.days[4]')) AS INTEGER) || ' days')
WHERE `early_date` IS NOT NULL AND json_extract(`crossing`, '$.days[4]') IS NOT NULL AND (
	`late_date` IS NULL OR julianday(`late_date`) - julianday(`early_date`) > julianday(`expected_date`) - julianday(`as_at_date`)
);
