CREATE TABLE `sessions` (
	`digest` text PRIMARY KEY NOT NULL,
	`key_name` text NOT NULL,
	`expires_at` text NOT NULL,
	FOREIGN KEY (`key_name`) REFERENCES `api_keys`(`name`) ON UPDATE no action ON DELETE no action
) STRICT;
