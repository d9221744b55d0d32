CREATE TABLE `__new_conditions` (
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
	CONSTRAINT "conditions_part" CHECK("__new_conditions"."part" in ('rotor', 'pad', 'caliper', 'hose', 'slide', 'drum', 'shoe')),
	CONSTRAINT "conditions_axle" CHECK("__new_conditions"."axle" in ('front', 'rear', 'axle-1', 'axle-2', 'axle-3', 'axle-4', 'axle-5', 'axle-6', 'axle-7', 'axle-8', 'axle-9')),
	CONSTRAINT "conditions_state" CHECK("__new_conditions"."state" in ('cracked', 'scored', 'heat-spotted', 'corroded', 'contaminated', 'loose', 'glazed', 'seized', 'leaking', 'ok'))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
INSERT INTO `__new_conditions`("vehicle_seq", "visit_seq", "number", "part", "axle", "side", "pad", "state", "notes") SELECT "vehicle_seq", "visit_seq", "number", "part", "axle", "side", "pad", "state", "notes" FROM `conditions`;--> statement-breakpoint
DROP TABLE `conditions`;--> statement-breakpoint
ALTER TABLE `__new_conditions` RENAME TO `conditions`;--> statement-breakpoint
CREATE TABLE `__new_readings` (
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
	CONSTRAINT "readings_kind" CHECK("__new_readings"."kind" in ('pad-thickness', 'rotor-thickness', 'rotor-runout', 'shoe-thickness', 'drum-diameter')),
	CONSTRAINT "readings_axle" CHECK("__new_readings"."axle" in ('front', 'rear', 'axle-1', 'axle-2', 'axle-3', 'axle-4', 'axle-5', 'axle-6', 'axle-7', 'axle-8', 'axle-9')),
	CONSTRAINT "readings_side" CHECK("__new_readings"."side" in ('left', 'right')),
	CONSTRAINT "readings_pad" CHECK("__new_readings"."pad" in ('inner', 'outer', 'leading', 'trailing', 'thinnest')),
	CONSTRAINT "readings_at" CHECK("__new_readings"."at" in ('thinnest', 'leading', 'centre', 'trailing')),
	CONSTRAINT "readings_unit" CHECK("__new_readings"."unit" in ('mm', 'in', 'in/32')),
	CONSTRAINT "readings_taken" CHECK("__new_readings"."taken" in ('as-found', 'as-left')),
	CONSTRAINT "readings_value" CHECK("__new_readings"."value" >= 0),
	CONSTRAINT "readings_pad_named" CHECK(("__new_readings"."kind" in ('pad-thickness', 'shoe-thickness')) = ("__new_readings"."pad" is not null))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
INSERT INTO `__new_readings`("vehicle_seq", "visit_seq", "number", "kind", "axle", "side", "pad", "at", "point", "repeat", "value", "unit", "taken", "gauge") SELECT "vehicle_seq", "visit_seq", "number", "kind", "axle", "side", "pad", "at", "point", "repeat", "value", "unit", "taken", "gauge" FROM `readings`;--> statement-breakpoint
DROP TABLE `readings`;--> statement-breakpoint
ALTER TABLE `__new_readings` RENAME TO `readings`;--> statement-breakpoint
CREATE UNIQUE INDEX `readings_place` ON `readings` (`visit_seq`,`kind`,`axle`,`side`,(case when pad is null then '' else pad end),(case when at is null then '' else at end),(case when point is null then 0 else point end),`repeat`,`taken`);--> statement-breakpoint
CREATE TABLE `__new_work_items` (
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
	CONSTRAINT "work_items_kind" CHECK("__new_work_items"."kind" in ('pads-replaced', 'rotor-replaced', 'rotor-machined', 'shoes-replaced', 'drum-replaced', 'drum-machined', 'slides-serviced', 'caliper-replaced', 'fluid-changed', 'hose-replaced')),
	CONSTRAINT "work_items_axle" CHECK("__new_work_items"."axle" in ('front', 'rear', 'axle-1', 'axle-2', 'axle-3', 'axle-4', 'axle-5', 'axle-6', 'axle-7', 'axle-8', 'axle-9')),
	CONSTRAINT "work_items_side" CHECK("__new_work_items"."side" in ('left', 'right')),
	CONSTRAINT "work_items_on_axle" CHECK("__new_work_items"."axle" is not null or "__new_work_items"."kind" = 'fluid-changed')
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
INSERT INTO `__new_work_items`("vehicle_seq", "visit_seq", "number", "kind", "axle", "side", "body") SELECT "vehicle_seq", "visit_seq", "number", "kind", "axle", "side", "body" FROM `work_items`;--> statement-breakpoint
DROP TABLE `work_items`;--> statement-breakpoint
ALTER TABLE `__new_work_items` RENAME TO `work_items`;