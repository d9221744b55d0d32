CREATE TABLE `experiences` (
	`version` integer PRIMARY KEY NOT NULL,
	`fitted` text NOT NULL,
	`last_visit_seq` integer NOT NULL,
	`created_at` text NOT NULL,
	CONSTRAINT "experiences_fitted" CHECK(json_valid("experiences"."fitted"))
) STRICT;
--> statement-breakpoint
ALTER TABLE `outlooks` ADD `experience_version` integer DEFAULT 0 NOT NULL;--> statement-breakpoint
CREATE INDEX `outlooks_experience` ON `outlooks` (`experience_version`);