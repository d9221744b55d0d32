ALTER TABLE `axle_outlooks` ADD `rotor_chance` real;--> statement-breakpoint
ALTER TABLE `axle_outlooks` ADD `rotors_now` integer DEFAULT false NOT NULL;--> statement-breakpoint
UPDATE `outlooks` SET `experience_version` = -1;
