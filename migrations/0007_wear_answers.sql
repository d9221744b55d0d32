CREATE TABLE `wear_answers` (
	`vehicle_seq` integer PRIMARY KEY NOT NULL,
	`settings_revision` integer NOT NULL,
	`open` text NOT NULL,
	`text` text NOT NULL,
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
UPDATE `outlooks` SET `experience_version` = -1;
