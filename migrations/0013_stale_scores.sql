ALTER TABLE `forecast_scores` ADD `past_fits` integer DEFAULT 0 NOT NULL;--> statement-breakpoint
UPDATE `forecast_scores` SET `past_fits` = (SELECT count(*) FROM `past_experiences`);
