CREATE TABLE `audit` (
	`seq` integer PRIMARY KEY NOT NULL,
	`at` text NOT NULL,
	`key_name` text,
	`method` text,
	`action` text NOT NULL,
	`resource` text NOT NULL,
	`resource_id` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE INDEX `audit_at` ON `audit` (`at`);--> statement-breakpoint
CREATE TABLE `vehicle_versions` (
	`vehicle_seq` integer NOT NULL,
	`version` integer NOT NULL,
	`kind` text NOT NULL,
	`at` text NOT NULL,
	`key_name` text,
	`reason` text,
	`body` text NOT NULL,
	`patch` text,
	`effective_from` text,
	`merged_with` text,
	PRIMARY KEY(`vehicle_seq`, `version`),
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "vehicle_versions_kind" CHECK("vehicle_versions"."kind" in ('recorded', 'changed', 'merged', 'merged-into')),
	CONSTRAINT "vehicle_versions_body" CHECK(json_valid("vehicle_versions"."body"))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE TABLE `visit_versions` (
	`visit_seq` integer NOT NULL,
	`version` integer NOT NULL,
	`vehicle_seq` integer NOT NULL,
	`kind` text NOT NULL,
	`at` text NOT NULL,
	`key_name` text,
	`reason` text,
	`body` text NOT NULL,
	PRIMARY KEY(`visit_seq`, `version`),
	FOREIGN KEY (`visit_seq`) REFERENCES `visits`(`seq`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "visit_versions_kind" CHECK("visit_versions"."kind" in ('recorded', 'entries-added', 'corrected', 'voided', 'restored', 'moved')),
	CONSTRAINT "visit_versions_body" CHECK(json_valid("visit_versions"."body"))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
DROP INDEX `vehicles_external_id`;--> statement-breakpoint
DROP INDEX `vehicles_vin`;--> statement-breakpoint
ALTER TABLE `vehicles` ADD `merged_into` text;--> statement-breakpoint
CREATE UNIQUE INDEX `vehicles_external_id` ON `vehicles` (`external_id`) WHERE merged_into is null;--> statement-breakpoint
CREATE UNIQUE INDEX `vehicles_vin` ON `vehicles` (`vin`) WHERE merged_into is null;--> statement-breakpoint
DROP INDEX `visits_work_order`;--> statement-breakpoint
ALTER TABLE `visits` ADD `voided` text;--> statement-breakpoint
ALTER TABLE `visits` ADD `item_numbers` text;--> statement-breakpoint
CREATE UNIQUE INDEX `visits_work_order` ON `visits` (`vehicle_seq`,(case when shop is null then '' else shop end),`work_order`) WHERE work_order is not null and voided is null;--> statement-breakpoint
-- What stands already becomes the first version known of it.
INSERT INTO `vehicle_versions` (`vehicle_seq`, `version`, `kind`, `at`, `body`)
SELECT `seq`, `version`, 'recorded', `updated_at`, `body` FROM `vehicles`;
--> statement-breakpoint
-- A visit as it would be sent: json_patch leaves out what is null, since a reading of one kind may not name what only another has.
INSERT INTO `visit_versions` (`visit_seq`, `version`, `vehicle_seq`, `kind`, `at`, `body`)
SELECT v.`seq`, v.`version`, v.`vehicle_seq`, 'recorded', v.`updated_at`, json_object(
	'date', v.`date`,
	'time', v.`time`,
	'odometer', CASE WHEN v.`odometer_value` IS NOT NULL THEN json_object('value', v.`odometer_value`, 'unit', v.`odometer_unit`) END,
	'odometerReplaced', json(v.`odometer_replaced`),
	'workOrder', v.`work_order`,
	'shop', v.`shop`,
	'technician', v.`technician`,
	'complaint', v.`complaint`,
	'notes', v.`notes`,
	'readings', (SELECT json_group_array(json_patch('{}', json_object('kind', `kind`, 'axle', `axle`, 'side', `side`, 'pad', `pad`, 'at', `at`, 'point', `point`, 'repeat', `repeat`, 'value', `value`, 'unit', `unit`, 'taken', `taken`, 'gauge', `gauge`)) ORDER BY `number`) FROM `readings` WHERE `vehicle_seq` = v.`vehicle_seq` AND `visit_seq` = v.`seq`),
	'notMeasured', (SELECT json_group_array(json_patch('{}', json_object('axle', `axle`, 'side', `side`, 'part', `part`, 'pad', `pad`, 'why', `why`)) ORDER BY `number`) FROM `not_measured` WHERE `vehicle_seq` = v.`vehicle_seq` AND `visit_seq` = v.`seq`),
	'conditions', (SELECT json_group_array(json_patch('{}', json_object('part', `part`, 'axle', `axle`, 'side', `side`, 'pad', `pad`, 'state', `state`, 'notes', `notes`)) ORDER BY `number`) FROM `conditions` WHERE `vehicle_seq` = v.`vehicle_seq` AND `visit_seq` = v.`seq`),
	'work', (SELECT json_group_array(json(`body`) ORDER BY `number`) FROM `work_items` WHERE `vehicle_seq` = v.`vehicle_seq` AND `visit_seq` = v.`seq`),
	'torques', (SELECT json_group_array(json_patch('{}', json_object('fastener', `fastener`, 'axle', `axle`, 'side', `side`, 'position', `position`, 'value', `value`, 'unit', `unit`)) ORDER BY `number`) FROM `torques` WHERE `vehicle_seq` = v.`vehicle_seq` AND `visit_seq` = v.`seq`),
	'roadTest', json(v.`road_test`)
) FROM `visits` v;
--> statement-breakpoint
CREATE TRIGGER `visit_versions_unchanged` BEFORE UPDATE ON `visit_versions` BEGIN SELECT RAISE(ABORT, 'visit_versions is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `visit_versions_kept` BEFORE DELETE ON `visit_versions` BEGIN SELECT RAISE(ABORT, 'visit_versions is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `visit_versions_not_replaced` BEFORE INSERT ON `visit_versions` WHEN EXISTS (SELECT 1 FROM `visit_versions` WHERE `visit_seq` = NEW.`visit_seq` AND `version` = NEW.`version`) BEGIN SELECT RAISE(ABORT, 'visit_versions is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `vehicle_versions_unchanged` BEFORE UPDATE ON `vehicle_versions` BEGIN SELECT RAISE(ABORT, 'vehicle_versions is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `vehicle_versions_kept` BEFORE DELETE ON `vehicle_versions` BEGIN SELECT RAISE(ABORT, 'vehicle_versions is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `vehicle_versions_not_replaced` BEFORE INSERT ON `vehicle_versions` WHEN EXISTS (SELECT 1 FROM `vehicle_versions` WHERE `vehicle_seq` = NEW.`vehicle_seq` AND `version` = NEW.`version`) BEGIN SELECT RAISE(ABORT, 'vehicle_versions is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `audit_unchanged` BEFORE UPDATE ON `audit` BEGIN SELECT RAISE(ABORT, 'audit is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `audit_kept` BEFORE DELETE ON `audit` BEGIN SELECT RAISE(ABORT, 'audit is only ever added to'); END;
--> statement-breakpoint
CREATE TRIGGER `audit_not_replaced` BEFORE INSERT ON `audit` WHEN EXISTS (SELECT 1 FROM `audit` WHERE `seq` = NEW.`seq`) BEGIN SELECT RAISE(ABORT, 'audit is only ever added to'); END;
