ALTER TABLE `axle_outlooks` ADD `stops` text;--> statement-breakpoint
UPDATE `axle_outlooks` SET `stops` = (
	SELECT json_group_array(json_object('code', `finding`.`value` ->> 'code', 'side', `finding`.`value` ->> 'side', 'pad', `finding`.`value` ->> 'pad'))
	FROM `outlooks`, json_each(`outlooks`.`body`, '$.axles') `axle`, json_each(`axle`.`value`, '$.findings') `finding`
	WHERE `outlooks`.`vehicle_seq` = `axle_outlooks`.`vehicle_seq` AND `axle`.`value` ->> 'axle' = `axle_outlooks`.`axle` AND `finding`.`value` ->> 'severity' = 'stop'
	HAVING count(*) > 0
);--> statement-breakpoint
CREATE INDEX `axle_outlooks_stopped` ON `axle_outlooks` (`fleet`,`out_of_service_date`,`early_date`,`vehicle_seq`,`axle`,`as_at_date`,`stops`) WHERE stops is not null;
