CREATE TABLE `forecast_scores` (
	`vehicle_seq` integer PRIMARY KEY NOT NULL,
	`scores` text,
	`revision` integer NOT NULL,
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "forecast_scores_scores" CHECK("forecast_scores"."scores" is null or json_valid("forecast_scores"."scores"))
) STRICT;
--> statement-breakpoint
CREATE TABLE `past_experiences` (
	`learned_to` text PRIMARY KEY NOT NULL,
	`fitted` text NOT NULL,
	`created_at` text NOT NULL,
	CONSTRAINT "past_experiences_fitted" CHECK(json_valid("past_experiences"."fitted"))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
ALTER TABLE `experiences` ADD `learned_to` text;--> statement-breakpoint
UPDATE `experiences` SET `learned_to` = (SELECT max(`date`) FROM `visits` WHERE `visits`.`seq` <= `experiences`.`last_visit_seq`);--> statement-breakpoint
INSERT INTO `forecast_scores` (`vehicle_seq`, `scores`, `revision`) SELECT `seq`, NULL, 1 FROM `vehicles`;
