CREATE TABLE `imports` (
	`seq` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`state` text NOT NULL,
	`body` text NOT NULL,
	`created_at` text NOT NULL,
	CONSTRAINT "imports_state" CHECK("imports"."state" in ('receiving', 'checking', 'forecasting', 'writing', 'done', 'refused', 'failed')),
	CONSTRAINT "imports_body" CHECK(json_valid("imports"."body"))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `imports_id` ON `imports` (`id`);--> statement-breakpoint
CREATE INDEX `imports_created` ON `imports` (`created_at`);