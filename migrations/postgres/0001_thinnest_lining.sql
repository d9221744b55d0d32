DROP INDEX "readings_place";--> statement-breakpoint
ALTER TABLE "readings" ALTER COLUMN "side" DROP NOT NULL;--> statement-breakpoint
ALTER TABLE "axle_outlooks" ADD COLUMN "linings" text collate "C";--> statement-breakpoint
CREATE UNIQUE INDEX "readings_place" ON "readings" USING btree ("visit_seq","kind","axle",coalesce(side, ''),coalesce(pad, ''),coalesce(at, ''),coalesce(point, 0),"repeat","taken");--> statement-breakpoint
ALTER TABLE "readings" ADD CONSTRAINT "readings_side_given" CHECK ("readings"."side" is not null or ("readings"."pad" is not null and "readings"."pad" = 'thinnest'));