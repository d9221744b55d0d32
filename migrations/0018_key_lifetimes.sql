CREATE TABLE `service_secrets` (
	`name` text PRIMARY KEY NOT NULL,
	`secret` text NOT NULL
) STRICT;
--> statement-breakpoint
ALTER TABLE `api_keys` ADD `expires_at` text;--> statement-breakpoint
ALTER TABLE `api_keys` ADD `last_used_at` text;--> statement-breakpoint
ALTER TABLE `api_keys` ADD `former_digest` text;--> statement-breakpoint
ALTER TABLE `api_keys` ADD `former_until` text;--> statement-breakpoint
CREATE UNIQUE INDEX `api_keys_former_digest` ON `api_keys` (`former_digest`);