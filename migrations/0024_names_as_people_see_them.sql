ALTER TABLE `vehicles` ADD `erased_at` text;--> statement-breakpoint
UPDATE `vehicles` SET `erased_at` = `updated_at` WHERE `external_id` = 'erased-' || `id`;--> statement-breakpoint
-- Names recorded by early programs may hold characters that nobody sees, or decomposed letters: since then they are
-- compared as `identifying_text` makes them, so that what was recorded is found by the name that is typed now.
DROP TRIGGER `vehicle_versions_unchanged`;--> statement-breakpoint
UPDATE `vehicle_versions` SET `body` = json_replace(`body`, '$.fleet', identifying_text(`body` ->> '$.fleet'), '$.model', identifying_text(`body` ->> '$.model'))
WHERE `body` ->> '$.fleet' IS NOT identifying_text(`body` ->> '$.fleet') OR `body` ->> '$.model' IS NOT identifying_text(`body` ->> '$.model');--> statement-breakpoint
UPDATE `vehicle_versions` SET `patch` = json_replace(`patch`, '$.fleet', identifying_text(`patch` ->> '$.fleet'), '$.model', identifying_text(`patch` ->> '$.model'))
WHERE `patch` ->> '$.fleet' IS NOT identifying_text(`patch` ->> '$.fleet') OR `patch` ->> '$.model' IS NOT identifying_text(`patch` ->> '$.model');--> statement-breakpoint
CREATE TRIGGER `vehicle_versions_unchanged` BEFORE UPDATE ON `vehicle_versions` BEGIN SELECT RAISE(ABORT, 'vehicle_versions is only ever added to'); END;--> statement-breakpoint
UPDATE `vehicles` SET `body` = json_replace(`body`, '$.fleet', identifying_text(`fleet`), '$.model', identifying_text(`model`), '$.registration', identifying_text(`registration`))
WHERE `fleet` IS NOT identifying_text(`fleet`) OR `model` IS NOT identifying_text(`model`) OR `registration` IS NOT identifying_text(`registration`);--> statement-breakpoint
-- Where another vehicle bears the name by now, each keeps its own until they are merged.
UPDATE OR IGNORE `vehicles` SET `body` = json_replace(`body`, '$.externalId', identifying_text(`external_id`))
WHERE `external_id` IS NOT identifying_text(`external_id`);--> statement-breakpoint
UPDATE `axle_outlooks` SET `fleet` = identifying_text(`fleet`), `model` = identifying_text(`model`)
WHERE `fleet` IS NOT identifying_text(`fleet`) OR `model` IS NOT identifying_text(`model`);--> statement-breakpoint
UPDATE `api_keys` SET `fleets` = (SELECT json_group_array(identifying_text(`value`)) FROM json_each(`api_keys`.`fleets`))
WHERE EXISTS (SELECT 1 FROM json_each(`api_keys`.`fleets`) WHERE `value` IS NOT identifying_text(`value`));--> statement-breakpoint
UPDATE `webhook_endpoints` SET `fleets` = (SELECT json_group_array(identifying_text(`value`)) FROM json_each(`webhook_endpoints`.`fleets`))
WHERE EXISTS (SELECT 1 FROM json_each(`webhook_endpoints`.`fleets`) WHERE `value` IS NOT identifying_text(`value`));--> statement-breakpoint
UPDATE `calendar_subscriptions` SET `body` = json_replace(`body`, '$.fleet', identifying_text(`body` ->> '$.fleet'))
WHERE `body` ->> '$.fleet' IS NOT identifying_text(`body` ->> '$.fleet');--> statement-breakpoint
UPDATE OR IGNORE `visits` SET `work_order` = identifying_text(`work_order`), `shop` = identifying_text(`shop`), `technician` = identifying_text(`technician`)
WHERE `work_order` IS NOT identifying_text(`work_order`) OR `shop` IS NOT identifying_text(`shop`) OR `technician` IS NOT identifying_text(`technician`);
