CREATE TABLE `__new_readings` (
	`vehicle_seq` integer NOT NULL,
	`visit_seq` integer NOT NULL,
	`number` integer NOT NULL,
	`kind` text NOT NULL,
	`axle` text NOT NULL,
	`side` text,
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
	CONSTRAINT "readings_side_given" CHECK("__new_readings"."side" is not null or ("__new_readings"."pad" is not null and "__new_readings"."pad" = 'thinnest')),
	CONSTRAINT "readings_pad_named" CHECK(("__new_readings"."kind" in ('pad-thickness', 'shoe-thickness')) = ("__new_readings"."pad" is not null))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
INSERT INTO `__new_readings`("vehicle_seq", "visit_seq", "number", "kind", "axle", "side", "pad", "at", "point", "repeat", "value", "unit", "taken", "gauge") SELECT "vehicle_seq", "visit_seq", "number", "kind", "axle", "side", "pad", "at", "point", "repeat", "value", "unit", "taken", "gauge" FROM `readings`;--> statement-breakpoint
DROP TABLE `readings`;--> statement-breakpoint
ALTER TABLE `__new_readings` RENAME TO `readings`;--> statement-breakpoint
CREATE UNIQUE INDEX `readings_place` ON `readings` (`visit_seq`,`kind`,`axle`,(case when side is null then '' else side end),(case when pad is null then '' else pad end),(case when at is null then '' else at end),(case when point is null then 0 else point end),`repeat`,`taken`);--> statement-breakpoint
ALTER TABLE `axle_outlooks` ADD `linings` text;