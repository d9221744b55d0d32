ALTER TABLE `outlooks` ADD `program` text DEFAULT '' NOT NULL;--> statement-breakpoint
CREATE INDEX `outlooks_program` ON `outlooks` (`program`);--> statement-breakpoint
-- The new column stands before the long text. Answers are made ready anew after the start, as every outlook is.
DROP TABLE `wear_answers`;--> statement-breakpoint
CREATE TABLE `wear_answers` (
	`vehicle_seq` integer PRIMARY KEY NOT NULL,
	`settings_revision` integer NOT NULL,
	`program` text NOT NULL,
	`open` text NOT NULL,
	`text` text NOT NULL,
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action
) STRICT;
