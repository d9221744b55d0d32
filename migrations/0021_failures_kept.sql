-- Stored outlooks and prepared answers lack the new findings and chances: each is recomputed on its next read or after the start.
DELETE FROM `wear_answers`;
--> statement-breakpoint
UPDATE `outlooks` SET `settings_revision` = -1;
