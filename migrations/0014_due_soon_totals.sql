DROP INDEX `axle_outlooks_fleet_early`;--> statement-breakpoint
DROP INDEX `axle_outlooks_early`;--> statement-breakpoint
DROP INDEX `axle_outlooks_first`;--> statement-breakpoint
DROP INDEX `axle_outlooks_measure`;--> statement-breakpoint
DROP INDEX `axle_outlooks_last_reading`;--> statement-breakpoint
ALTER TABLE `axle_outlooks` ADD `model` text;--> statement-breakpoint
ALTER TABLE `axle_outlooks` ADD `overdue_from` text;--> statement-breakpoint
UPDATE `axle_outlooks` SET
	`model` = (SELECT `model` FROM `vehicles` WHERE `seq` = `vehicle_seq`),
	`overdue_from` = CASE WHEN `failing` THEN '0000-01-01' ELSE `median_date` END;--> statement-breakpoint
CREATE INDEX `axle_outlooks_fleet` ON `axle_outlooks` (`fleet`,`out_of_service_date`,`early_date`,`vehicle_seq`,`axle`,`model`,`as_at_date`,`overdue_from`,`measure_date`,`expected_date`,`last_reading_date`,`unassessed`) WHERE out_of_service_date is null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_due` ON `axle_outlooks` (`out_of_service_date`,`axle`,`early_date`) WHERE early_date is not null and out_of_service_date is null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_overdue` ON `axle_outlooks` (`out_of_service_date`,`axle`,`overdue_from`,`early_date`) WHERE early_date is not null and out_of_service_date is null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_leaving` ON `axle_outlooks` (`out_of_service_date`) WHERE out_of_service_date is not null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_unassessed_listed` ON `axle_outlooks` (`vehicle_seq`,`axle`) WHERE unassessed is not null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_early` ON `axle_outlooks` (`out_of_service_date`,`early_date`,`vehicle_seq`,`axle`,`fleet`,`model`,`as_at_date`,`overdue_from`) WHERE early_date is not null and out_of_service_date is null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_first` ON `axle_outlooks` (`out_of_service_date`,`first_date`) WHERE first_date is not null and out_of_service_date is null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_measure` ON `axle_outlooks` (`out_of_service_date`,`measure_date`,`expected_date`,`early_date`,`as_at_date`,`fleet`,`unassessed`) WHERE measure_date is not null and unassessed is null and out_of_service_date is null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_last_reading` ON `axle_outlooks` (`out_of_service_date`,`last_reading_date`,`measure_date`,`expected_date`,`early_date`,`as_at_date`,`fleet`,`unassessed`) WHERE last_reading_date is not null and unassessed is null and out_of_service_date is null;