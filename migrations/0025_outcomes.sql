CREATE TABLE `idempotency_outcomes` (
	`key_name` text NOT NULL,
	`target` text NOT NULL,
	`idempotency_key` text NOT NULL,
	`fingerprint` text NOT NULL,
	`outcome` text,
	`created_at` text NOT NULL,
	PRIMARY KEY(`key_name`, `target`, `idempotency_key`)
) STRICT;
--> statement-breakpoint
INSERT INTO `idempotency_outcomes` (`key_name`, `target`, `idempotency_key`, `fingerprint`, `outcome`, `created_at`)
SELECT `key_name`,
	CASE WHEN `path` = '/pages/forms' THEN `path` ELSE `method` || ' ' || `path` END,
	`idempotency_key`,
	`fingerprint`,
	CASE
		WHEN `path` <> '/pages/forms' THEN `status` || ' ' || `headers` || char(10) || `body`
		WHEN `status` = 303 THEN `body`
	END,
	`created_at`
FROM `idempotency_records`;
--> statement-breakpoint
DROP TABLE `idempotency_records`;
--> statement-breakpoint
ALTER TABLE `idempotency_outcomes` RENAME TO `idempotency_records`;
--> statement-breakpoint
CREATE INDEX `idempotency_records_created` ON `idempotency_records` (`created_at`);
--> statement-breakpoint
DROP TRIGGER `audit_unchanged`;
--> statement-breakpoint
ALTER TABLE `audit` RENAME COLUMN `method` TO `effect`;
--> statement-breakpoint
UPDATE `audit` SET `effect` = CASE `effect` WHEN 'PUT' THEN 'set' WHEN 'PATCH' THEN 'change' WHEN 'DELETE' THEN 'remove' ELSE 'act' END WHERE `effect` IS NOT NULL;
--> statement-breakpoint
CREATE TRIGGER `audit_unchanged` BEFORE UPDATE ON `audit` BEGIN SELECT RAISE(ABORT, 'audit is only ever added to'); END;
