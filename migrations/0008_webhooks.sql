CREATE TABLE `due_axles` (
	`vehicle_seq` integer NOT NULL,
	`axle` text NOT NULL,
	`since` text NOT NULL,
	PRIMARY KEY(`vehicle_seq`, `axle`),
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "due_axles_axle" CHECK("due_axles"."axle" in ('front', 'rear', 'axle-1', 'axle-2', 'axle-3', 'axle-4', 'axle-5', 'axle-6', 'axle-7', 'axle-8', 'axle-9'))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE TABLE `events` (
	`seq` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`type` text NOT NULL,
	`once` text,
	`body` text NOT NULL,
	`created_at` text NOT NULL,
	CONSTRAINT "events_type" CHECK("events"."type" in ('axle.due', 'limit.passed', 'reading.off_forecast', 'webhook.test')),
	CONSTRAINT "events_body" CHECK(json_valid("events"."body"))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `events_id` ON `events` (`id`);--> statement-breakpoint
CREATE UNIQUE INDEX `events_once` ON `events` (`once`) WHERE once is not null;--> statement-breakpoint
CREATE INDEX `events_created` ON `events` (`created_at`);--> statement-breakpoint
CREATE TABLE `untold_vehicles` (
	`vehicle_seq` integer PRIMARY KEY NOT NULL,
	`before` text NOT NULL,
	FOREIGN KEY (`vehicle_seq`) REFERENCES `vehicles`(`seq`) ON UPDATE no action ON DELETE no action
) STRICT;
--> statement-breakpoint
CREATE TABLE `webhook_deliveries` (
	`seq` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`event_seq` integer NOT NULL,
	`endpoint_seq` integer NOT NULL,
	`status` text NOT NULL,
	`tries` integer NOT NULL,
	`attempts` text NOT NULL,
	`next_attempt_at` text,
	`delivered_at` text,
	`created_at` text NOT NULL,
	FOREIGN KEY (`event_seq`) REFERENCES `events`(`seq`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`endpoint_seq`) REFERENCES `webhook_endpoints`(`seq`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "webhook_deliveries_status" CHECK("webhook_deliveries"."status" in ('pending', 'delivered', 'given-up')),
	CONSTRAINT "webhook_deliveries_next" CHECK(("webhook_deliveries"."status" = 'pending') = ("webhook_deliveries"."next_attempt_at" is not null))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `webhook_deliveries_id` ON `webhook_deliveries` (`id`);--> statement-breakpoint
CREATE INDEX `webhook_deliveries_pending` ON `webhook_deliveries` (`endpoint_seq`,`next_attempt_at`) WHERE status = 'pending';--> statement-breakpoint
CREATE INDEX `webhook_deliveries_endpoint` ON `webhook_deliveries` (`endpoint_seq`,`seq`);--> statement-breakpoint
CREATE INDEX `webhook_deliveries_event` ON `webhook_deliveries` (`event_seq`);--> statement-breakpoint
CREATE TABLE `webhook_endpoints` (
	`seq` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`version` integer NOT NULL,
	`url` text NOT NULL,
	`event_types` text,
	`fleets` text,
	`enabled` integer NOT NULL,
	`disabled_because` text,
	`secret` text NOT NULL,
	`previous_secret` text,
	`previous_secret_until` text,
	`paused_until` text,
	`created_at` text NOT NULL,
	`updated_at` text NOT NULL,
	CONSTRAINT "webhook_endpoints_previous" CHECK(("webhook_endpoints"."previous_secret" is null) = ("webhook_endpoints"."previous_secret_until" is null))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `webhook_endpoints_id` ON `webhook_endpoints` (`id`);