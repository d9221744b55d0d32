CREATE TABLE `gauges` (
	`name` text NOT NULL,
	`version` integer NOT NULL,
	`body` text NOT NULL,
	`updated_by` text NOT NULL,
	`updated_at` text NOT NULL,
	PRIMARY KEY(`name`, `version`),
	CONSTRAINT "gauges_body" CHECK(json_valid("gauges"."body"))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE TABLE `policies` (
	`version` integer PRIMARY KEY NOT NULL,
	`body` text NOT NULL,
	`updated_by` text NOT NULL,
	`updated_at` text NOT NULL,
	CONSTRAINT "policies_body" CHECK(json_valid("policies"."body"))
) STRICT;
--> statement-breakpoint
ALTER TABLE `outlooks` ADD `settings_revision` integer DEFAULT -1 NOT NULL;--> statement-breakpoint
CREATE INDEX `outlooks_settings` ON `outlooks` (`settings_revision`);