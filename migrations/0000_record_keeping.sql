CREATE TABLE `api_keys` (
	`name` text PRIMARY KEY NOT NULL,
	`role` text NOT NULL,
	`fleets` text NOT NULL,
	`digest` text NOT NULL,
	`created_at` text NOT NULL,
	`revoked_at` text,
	CONSTRAINT "api_keys_role" CHECK("api_keys"."role" in ('front-desk', 'technician', 'fleet-manager', 'owner'))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `api_keys_digest` ON `api_keys` (`digest`);--> statement-breakpoint
CREATE TABLE `axle_outlooks` (
	`vehicle_seq` integer NOT NULL,
	`axle` text NOT NULL,
	`fleet` text,
	`out_of_service_date` text,
	`as_at_date` text,
	`first_date` text,
	`early_date` text,
	`median_date` text,
	`late_date` text,
	`failing` integer NOT NULL,
	`crossing` text,
	`governing_side` text,
	`governing_pad` text,
	`limit_mm` real,
	`limit_source` text,
	`last_reading_date` text,
	`unassessed` text,
	PRIMARY KEY(`vehicle_seq`, `axle`),
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "axle_outlooks_axle" CHECK("axle_outlooks"."axle" in ('front', 'rear', 'axle-1', 'axle-2', 'axle-3', 'axle-4', 'axle-5', 'axle-6', 'axle-7', 'axle-8', 'axle-9'))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE INDEX `axle_outlooks_early` ON `axle_outlooks` (`early_date`,`vehicle_seq`,`axle`) WHERE early_date is not null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_fleet_early` ON `axle_outlooks` (`fleet`,`early_date`) WHERE early_date is not null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_first` ON `axle_outlooks` (`first_date`) WHERE first_date is not null;--> statement-breakpoint
CREATE INDEX `axle_outlooks_unassessed` ON `axle_outlooks` (`fleet`) WHERE unassessed is not null;--> statement-breakpoint
CREATE TABLE `conditions` (
	`vehicle_seq` integer NOT NULL,
	`visit_seq` integer NOT NULL,
	`number` integer NOT NULL,
	`part` text NOT NULL,
	`axle` text NOT NULL,
	`side` text,
	`pad` text,
	`state` text NOT NULL,
	`notes` text,
	PRIMARY KEY(`vehicle_seq`, `visit_seq`, `number`),
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`visit_seq`) REFERENCES `visits`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "conditions_part" CHECK("conditions"."part" in ('rotor', 'pad', 'caliper', 'hose', 'slide')),
	CONSTRAINT "conditions_axle" CHECK("conditions"."axle" in ('front', 'rear', 'axle-1', 'axle-2', 'axle-3', 'axle-4', 'axle-5', 'axle-6', 'axle-7', 'axle-8', 'axle-9')),
	CONSTRAINT "conditions_state" CHECK("conditions"."state" in ('cracked', 'scored', 'heat-spotted', 'corroded', 'contaminated', 'loose', 'glazed', 'seized', 'leaking', 'ok'))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE TABLE `idempotency_records` (
	`key_name` text NOT NULL,
	`method` text NOT NULL,
	`path` text NOT NULL,
	`idempotency_key` text NOT NULL,
	`fingerprint` text NOT NULL,
	`status` integer NOT NULL,
	`headers` text NOT NULL,
	`body` text NOT NULL,
	`created_at` text NOT NULL,
	PRIMARY KEY(`key_name`, `method`, `path`, `idempotency_key`)
) STRICT;
--> statement-breakpoint
CREATE INDEX `idempotency_records_created` ON `idempotency_records` (`created_at`);--> statement-breakpoint
CREATE TABLE `not_measured` (
	`vehicle_seq` integer NOT NULL,
	`visit_seq` integer NOT NULL,
	`number` integer NOT NULL,
	`axle` text NOT NULL,
	`side` text,
	`part` text,
	`pad` text,
	`why` text NOT NULL,
	PRIMARY KEY(`vehicle_seq`, `visit_seq`, `number`),
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`visit_seq`) REFERENCES `visits`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "not_measured_axle" CHECK("not_measured"."axle" in ('front', 'rear', 'axle-1', 'axle-2', 'axle-3', 'axle-4', 'axle-5', 'axle-6', 'axle-7', 'axle-8', 'axle-9'))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE TABLE `outlooks` (
	`vehicle_seq` integer PRIMARY KEY NOT NULL,
	`body` text NOT NULL,
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "outlooks_body" CHECK(json_valid("outlooks"."body"))
) STRICT;
--> statement-breakpoint
CREATE TABLE `readings` (
	`vehicle_seq` integer NOT NULL,
	`visit_seq` integer NOT NULL,
	`number` integer NOT NULL,
	`kind` text NOT NULL,
	`axle` text NOT NULL,
	`side` text NOT NULL,
	`pad` text,
	`at` text,
	`point` integer,
	`repeat` integer NOT NULL,
	`value` real NOT NULL,
	`unit` text NOT NULL,
	`taken` text NOT NULL,
	`gauge` text,
	PRIMARY KEY(`vehicle_seq`, `visit_seq`, `number`),
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`visit_seq`) REFERENCES `visits`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "readings_kind" CHECK("readings"."kind" in ('pad-thickness', 'rotor-thickness', 'rotor-runout')),
	CONSTRAINT "readings_axle" CHECK("readings"."axle" in ('front', 'rear', 'axle-1', 'axle-2', 'axle-3', 'axle-4', 'axle-5', 'axle-6', 'axle-7', 'axle-8', 'axle-9')),
	CONSTRAINT "readings_side" CHECK("readings"."side" in ('left', 'right')),
	CONSTRAINT "readings_pad" CHECK("readings"."pad" in ('inner', 'outer')),
	CONSTRAINT "readings_at" CHECK("readings"."at" in ('thinnest', 'leading', 'centre', 'trailing')),
	CONSTRAINT "readings_unit" CHECK("readings"."unit" in ('mm', 'in', 'in/32')),
	CONSTRAINT "readings_taken" CHECK("readings"."taken" in ('as-found', 'as-left')),
	CONSTRAINT "readings_value" CHECK("readings"."value" >= 0),
	CONSTRAINT "readings_pad_named" CHECK(("readings"."kind" = 'pad-thickness') = ("readings"."pad" is not null))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE UNIQUE INDEX `readings_place` ON `readings` (`visit_seq`,`kind`,`axle`,`side`,(case when pad is null then '' else pad end),(case when at is null then '' else at end),(case when point is null then 0 else point end),`repeat`,`taken`);--> statement-breakpoint
CREATE TABLE `torques` (
	`vehicle_seq` integer NOT NULL,
	`visit_seq` integer NOT NULL,
	`number` integer NOT NULL,
	`fastener` text NOT NULL,
	`axle` text NOT NULL,
	`side` text,
	`position` integer,
	`value` real NOT NULL,
	`unit` text NOT NULL,
	PRIMARY KEY(`vehicle_seq`, `visit_seq`, `number`),
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`visit_seq`) REFERENCES `visits`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "torques_axle" CHECK("torques"."axle" in ('front', 'rear', 'axle-1', 'axle-2', 'axle-3', 'axle-4', 'axle-5', 'axle-6', 'axle-7', 'axle-8', 'axle-9')),
	CONSTRAINT "torques_unit" CHECK("torques"."unit" in ('Nm', 'ft-lbf')),
	CONSTRAINT "torques_value" CHECK("torques"."value" >= 0)
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE TABLE `vehicles` (
	`seq` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`body` text NOT NULL,
	`external_id` text GENERATED ALWAYS AS (json_extract(body, '$.externalId')) VIRTUAL,
	`registration` text GENERATED ALWAYS AS (json_extract(body, '$.registration')) VIRTUAL,
	`vin` text GENERATED ALWAYS AS (json_extract(body, '$.vin')) VIRTUAL,
	`model` text GENERATED ALWAYS AS (json_extract(body, '$.model')) VIRTUAL,
	`fleet` text GENERATED ALWAYS AS (json_extract(body, '$.fleet')) VIRTUAL,
	`out_of_service_date` text GENERATED ALWAYS AS (json_extract(body, '$.outOfService.date')) VIRTUAL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	CONSTRAINT "vehicles_body" CHECK(json_valid("vehicles"."body")),
	CONSTRAINT "vehicles_identified" CHECK(json_extract("vehicles"."body", '$.externalId') is not null or json_extract("vehicles"."body", '$.registration') is not null or json_extract("vehicles"."body", '$.vin') is not null),
	CONSTRAINT "vehicles_version" CHECK("vehicles"."version" >= 1)
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `vehicles_id` ON `vehicles` (`id`);--> statement-breakpoint
CREATE UNIQUE INDEX `vehicles_external_id` ON `vehicles` (`external_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `vehicles_vin` ON `vehicles` (`vin`);--> statement-breakpoint
CREATE INDEX `vehicles_registration` ON `vehicles` (`registration`);--> statement-breakpoint
CREATE INDEX `vehicles_fleet` ON `vehicles` (`fleet`,`seq`);--> statement-breakpoint
CREATE INDEX `vehicles_model` ON `vehicles` (`model`,`seq`);--> statement-breakpoint
CREATE TABLE `visits` (
	`seq` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`vehicle_seq` integer NOT NULL,
	`version` integer NOT NULL,
	`date` text NOT NULL,
	`time` text,
	`odometer_value` real,
	`odometer_unit` text,
	`odometer_replaced` text,
	`work_order` text,
	`shop` text,
	`technician` text,
	`complaint` text,
	`notes` text,
	`road_test` text,
	`content_digest` text NOT NULL,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "visits_date" CHECK("visits"."date" glob '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
	CONSTRAINT "visits_odometer" CHECK(("visits"."odometer_value" is null) = ("visits"."odometer_unit" is null) and "visits"."odometer_value" >= 0),
	CONSTRAINT "visits_odometer_unit" CHECK("visits"."odometer_unit" in ('km', 'mi')),
	CONSTRAINT "visits_version" CHECK("visits"."version" >= 1)
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `visits_id` ON `visits` (`id`);--> statement-breakpoint
CREATE INDEX `visits_vehicle` ON `visits` (`vehicle_seq`,`date`);--> statement-breakpoint
CREATE UNIQUE INDEX `visits_work_order` ON `visits` (`vehicle_seq`,(case when shop is null then '' else shop end),`work_order`) WHERE work_order is not null;--> statement-breakpoint
CREATE TABLE `work_items` (
	`vehicle_seq` integer NOT NULL,
	`visit_seq` integer NOT NULL,
	`number` integer NOT NULL,
	`kind` text NOT NULL,
	`axle` text,
	`side` text,
	`body` text NOT NULL,
	PRIMARY KEY(`vehicle_seq`, `visit_seq`, `number`),
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`visit_seq`) REFERENCES `visits`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "work_items_kind" CHECK("work_items"."kind" in ('pads-replaced', 'rotor-replaced', 'rotor-machined', 'slides-serviced', 'caliper-replaced', 'fluid-changed', 'hose-replaced')),
	CONSTRAINT "work_items_axle" CHECK("work_items"."axle" in ('front', 'rear', 'axle-1', 'axle-2', 'axle-3', 'axle-4', 'axle-5', 'axle-6', 'axle-7', 'axle-8', 'axle-9')),
	CONSTRAINT "work_items_side" CHECK("work_items"."side" in ('left', 'right')),
	CONSTRAINT "work_items_on_axle" CHECK("work_items"."axle" is not null or "work_items"."kind" = 'fluid-changed')
) STRICT, WITHOUT ROWID;
