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
CREATE INDEX `axle_outlooks_early` ON `axle_outlooks` (`early_date`,`vehicle_seq`,`axle`,`out_of_service_date`) WHERE early_date is not null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_fleet_early` ON `axle_outlooks` (`fleet`,`early_date`,`vehicle_seq`,`axle`,`out_of_service_date`) WHERE early_date is not null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_unassessed` ON `axle_outlooks` (`fleet`,`axle`,`out_of_service_date`) WHERE unassessed is not null;