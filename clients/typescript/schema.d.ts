/** Generated from the service's OpenAPI document by `npm run client`. Do not edit. */
export interface paths {
    "/health/live": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Check that the process is running
         * @description The server answers 200 while the process runs. No key is needed.
         */
        get: operations["getLiveness"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/health/ready": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Check that the server can use its database
         * @description The server answers 503 while it cannot read its database or is shutting down. No key is needed.
         */
        get: operations["getReadiness"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/calendars/{token}.ics": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Get the due-soon report as a calendar
         * @description No key is needed. The token in the address comes from POST /v1/calendar-subscriptions and opens this calendar only.
         */
        get: operations["getCalendar"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/vehicles": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List or find vehicles
         * @description Vehicles in the order in which they were recorded. Vehicles out of service are listed only on request.
         */
        get: operations["listVehicles"];
        put?: never;
        /**
         * Record a vehicle
         * @description The vehicle needs at least one axle, and at least one of externalId, registration and vin. Everything else is optional.
         */
        post: operations["recordVehicle"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/vehicles/{vehicleId}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read a vehicle
         * @description The answer carries the ETag, which a change needs.
         */
        get: operations["getVehicle"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        /**
         * Change a vehicle
         * @description An RFC 7396 merge patch: missing members stay, null removes a member, and arrays are replaced whole. Needs If-Match. Answers with an `asOf` date before the change use the earlier version. Send `effectiveFrom` if the change held earlier, for example when it corrects a mistyped figure.
         */
        patch: operations["changeVehicle"];
        trace?: never;
    };
    "/v1/vehicles/{vehicleId}/visits": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List a vehicle’s visits
         * @description Visits, latest first. Voided visits are listed only on request.
         */
        get: operations["listVisits"];
        put?: never;
        /**
         * Record a visit
         * @description The server stores the readings, conditions, work, torques and road test and the recomputed outlooks in one transaction. If the work order is already recorded, it answers 200 with the stored visit when the content is the same, and 409 when it differs.
         */
        post: operations["recordVisit"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/visits/{visitId}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read a visit
         * @description The visit as it was sent, with converted units and an id for every reading, work item and torque. A voided visit has `voided`.
         */
        get: operations["getVisit"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/visits/{visitId}/entries": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Add to a visit
         * @description Adds readings, work or other entries to a recorded visit, such as the afternoon’s work to the morning’s readings.
         */
        post: operations["addVisitEntries"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/visits/{visitId}/open-points": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List a visit’s open points
         * @description What is missing before the job is complete: findings not answered by work, by a part’s recorded condition or by a repeated reading; a decision to replace, machine or measure that has not been carried out; linings not measured on an axle that was worked on; hydraulics opened without bleeding or new fluid; torques not recorded or outside their specification; work on one side only; no road test, or one that leaves out pull, pulsation or noise. Another visit within a week can close a point. Open points block nothing, and an empty list does not mean that the vehicle is safe.
         */
        get: operations["getOpenPoints"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/visits/{visitId}/corrections": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Correct, void or restore a visit
         * @description `changes` is an RFC 7396 merge patch of the current visit in the form of a VisitBody, with later entries included. Arrays are replaced whole. The server checks the patched visit like a new one and recomputes the outlooks. An unchanged reading, work item or torque keeps its id; a changed one gets a new id. `void: true` (owner only) excludes the visit from every forecast and report and frees its work order; `void: false` restores it. The history keeps the earlier versions. Needs If-Match.
         */
        post: operations["correctVisit"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/vehicles/{vehicleId}/merge": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Merge another record of the same vehicle into this one
         * @description The server moves the other record’s visits to this one and fills in a missing externalId, registration and vin. It recomputes the outlook in the same transaction. If there is a conflict (a work order on both records, an odometer that would run backwards, an axle missing here), nothing moves and `errors` lists the conflicts. The other record can still be read and has `mergedInto`. It no longer appears in lists and reports, and its other resources answer 404 with the `vehicleId` of this record. Needs If-Match.
         */
        post: operations["mergeVehicles"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/visits/{visitId}/history": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List every version of a visit
         * @description Versions, earliest first: the visit at that version, who wrote it, when and why.
         */
        get: operations["listVisitVersions"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/vehicles/{vehicleId}/history": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List every version of a vehicle
         * @description Versions, earliest first: the vehicle at that version, who wrote it and when. This also works for a record that was merged into another.
         */
        get: operations["listVehicleVersions"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/audit": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the audit log
         * @description Entries, earliest first: one per write, with the name of the key.
         */
        get: operations["listAuditEntries"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/vehicles/{vehicleId}/wear": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Get wear, dates and rotor margins
         * @description For every pad, the wear per 1,000 km and the thickness left above the governing limit. For every axle, when the first pad will reach that limit. For every rotor, the margin above its discard thickness. `low` and `early` are 10 % points; `high` and `late` are 90 % points.
         */
        get: operations["getWear"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/vehicles/{vehicleId}/wear.svg": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Draw the wear of one axle
         * @description Charts of the linings and of the rotors or drums: readings with the 95 % interval of their gauges, replacements, limits, and the forecast with its 50 % and 80 % intervals. The figures are those of the wear answer. The title and description of the picture say the same in words.
         */
        get: operations["getWearPicture"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/vehicles/{vehicleId}/replacement-plan": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Get the visit at which to fit new linings
         * @description For each coming visit and axle, the chance that the limit is reached before it and how much lining is wasted if the job is done then. With `costTooLate` and `costPerMmWasted`, the server recommends the visit with the lowest expected cost. Only the ratio of the two matters, so any currency will do. Without costs, it recommends the last visit at which the chance of being too late is at most `chance`. It assumes that the job is done at one of these visits, that it costs the same at each, and that being too late costs the same however late. For an overdue axle it recommends no visit: the job is due now. The server computes the plan on every call, like a wear answer with `asOf`.
         */
        get: operations["getReplacementPlan"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/reports/due-soon": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the axles that are due soon
         * @description Axles on which the linings, rotors or drums reach their limit by the horizon with a chance of at least `chance`. Overdue axles are included. The soonest early date comes first. As iCalendar, each axle is an all-day event. POST /v1/calendar-subscriptions creates an address for calendar programs.
         */
        get: operations["listDueAxles"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/reports/unassessed": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the axles without a forecast, and why
         * @description Axles without a forecast, with the reason: never measured, no limit known or no odometer reading.
         */
        get: operations["listUnassessedAxles"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/reports/measure-first": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the axles to measure before planning work, and why
         * @description Axles with a forecast that the due-soon report with the same parameters leaves out, and that need a reading first. One reason is that the axle was not measured for longer than the policy’s `longestDaysWithoutReading`. The other is that its early and late dates are farther apart than the vehicle’s visits, and the chance of reaching the limit rises to 5 % by the horizon and before the next expected visit, or the vehicle has missed a visit. The soonest early date comes first. Axles without a forecast are in the unassessed report.
         */
        get: operations["listAxlesToMeasureFirst"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/reports/stops": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the axles with a stop finding that are not due
         * @description Axles with a finding of severity `stop` that the due-soon report with the same parameters leaves out because their forecast is not due: a cracked rotor with thick pads, a leaking caliper, an axle without a forecast. Both lists together hold every axle that needs work now. The soonest early date comes first.
         */
        get: operations["listStoppedAxles"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/calendar-subscriptions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the calendar subscriptions
         * @description The subscriptions that this key created, without their addresses. An owner’s key sees all. Subscriptions of revoked keys are not listed.
         */
        get: operations["listCalendarSubscriptions"];
        put?: never;
        /**
         * Create an address for a calendar program
         * @description Calendar programs cannot send a key. The address created here contains a random 256-bit token instead. It gives the due-soon report with these parameters as iCalendar, and nothing else. It sees the same vehicles as the key that creates it and stops working when that key is revoked. The server shows the address only in this answer and stores only its hash. If you lose it, create another.
         */
        post: operations["addCalendarSubscription"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/calendar-subscriptions/{subscriptionId}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        /**
         * Revoke a calendar subscription
         * @description The address stops working at once and for good. A key can revoke its own subscriptions; an owner’s key can revoke any.
         */
        delete: operations["revokeCalendarSubscription"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/reports/parts-demand": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Get the parts needed by month
         * @description The number of lining sets and of rotor or drum pairs needed, by calendar month from the current one, fleet, model and axle. A set of linings counts in the month in which the axle’s first lining reaches its governing limit, weighted by the chance of that. The first month also counts the chance that the limit has already been reached, and the whole set if a reading fails. Rotors and drums count together with the linings that they would not outlast, or earlier, in the month in which they reach their own limit. Those to be replaced now count in the first month. A month’s figures do not depend on how many months are requested. `expected` is the sum of the chances. `low` and `high` are the 10 % and 90 % points of the number, if axles wear out independently. If many vehicles share a season or a change of work, the true spread is wider. Each axle counts at most one set, even if the next set could wear out within these months. Vehicles out of service are not counted. The answer is not paged.
         */
        get: operations["getPartsDemand"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/reports/forecast-accuracy": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Get the accuracy of past forecasts
         * @description The server repeats the forecast of each past visit from what was known then, and compares it with when the axle’s first pad reached its governing limit. It also compares each reading with its forecast from the visit before. A forecast uses no data from after its visit; its experience is the newest that was learned from earlier visits only. JSON has the accuracy figures and, as items, the forecasts, latest first. CSV has the forecasts only.
         */
        get: operations["getForecastAccuracy"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/gauges": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the gauges
         * @description The standard gauges and the shop’s own. A reading names one of them. If it names none, the server assumes a coarse gauge.
         */
        get: operations["listGauges"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/gauges/{name}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read a gauge
         * @description Its resolution, standard uncertainty and calibration.
         */
        get: operations["getGauge"];
        /**
         * Add or change a gauge
         * @description Adds one of the shop’s own gauges, or replaces the description of an existing gauge, which needs If-Match. The server recomputes every outlook that uses its readings.
         */
        put: operations["setGauge"];
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/policy": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read the shop’s policy
         * @description The rule sets that apply, the shop’s own minimum thickness, the default parameters of the reports, and the intervals between visits and between readings.
         */
        get: operations["getPolicy"];
        /**
         * Set the shop’s policy
         * @description Replaces the whole policy. The server then recomputes every outlook. A vehicle’s own answers follow the new policy at once. Reports follow as their outlooks are recomputed in the background.
         */
        put: operations["setPolicy"];
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/limits": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the legal rule sets, and the rules that apply to a vehicle
         * @description Each figure comes with its source. Wear answers apply a set only if the policy names it; by default it names none. With `vehicleId`, the answer lists the rules that apply to each axle of that vehicle by actuation, lining, steering and gross mass, and which of these facts are unknown. Local law and licensed practice decide.
         */
        get: operations["listRuleSets"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/experience": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the experience learned from the shop’s own vehicles
         * @description Each fit with its groups, their parameters, and the number of vehicles and readings that it used.
         */
        get: operations["listExperiences"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/imports/visits": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Import a spreadsheet of visits
         * @description A heading row, then one row for each reading, work item, torque, condition or place not measured. The vehicle, date and work order of a row say which visit it belongs to. The text may be UTF-8, UTF-16 or Windows-1252, with commas, semicolons or tabs between the cells and decimal points or commas. Headings and terms may be in any case. The server skips rows that are already recorded. If the file has any error, the server imports nothing of it; otherwise it imports all of it.
         */
        post: operations["importVisits"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/imports/vehicles": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Import vehicles
         * @description JSON Lines: one vehicle per line, in the form that POST /v1/vehicles accepts. The server skips vehicles that are already recorded. A recorded vehicle with different content is an error. If the file has any error, the server imports nothing of it; otherwise it imports all of it.
         */
        post: operations["importVehicles"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/imports": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List imports
         * @description Imports, latest first, including those in progress.
         */
        get: operations["listImports"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/imports/{importId}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Get import progress
         * @description Ask again until `state` is `done`, `refused` or `failed`.
         */
        get: operations["getImport"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/exports/visits": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Export every visit
         * @description A spreadsheet that POST /v1/imports/visits accepts. If you import it into an empty database that has the exported vehicles, the next export is identical byte for byte.
         */
        get: operations["exportVisits"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/exports/vehicles": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Export every vehicle
         * @description JSON Lines, one vehicle per line, in the form that POST /v1/imports/vehicles accepts.
         */
        get: operations["exportVehicles"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/webhook-endpoints": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List the webhook endpoints
         * @description All endpoints, earliest first, without their secrets.
         */
        get: operations["listWebhookEndpoints"];
        put?: never;
        /**
         * Create a webhook endpoint
         * @description The server posts events from now on. It posts nothing for axles that are already due; the due-soon report lists them. The answer contains the secret that signs the events. No later answer shows it.
         */
        post: operations["addWebhookEndpoint"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/webhook-endpoints/{endpointId}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read a webhook endpoint
         * @description The endpoint without its secret. The answer carries the ETag, which a change needs.
         */
        get: operations["getWebhookEndpoint"];
        put?: never;
        post?: never;
        /**
         * Remove a webhook endpoint
         * @description Deletes the endpoint with its secret and its deliveries, for good.
         */
        delete: operations["removeWebhookEndpoint"];
        options?: never;
        head?: never;
        /**
         * Change a webhook endpoint
         * @description An RFC 7396 merge patch of the address, the filters or `enabled`. While the endpoint is disabled, the server raises no events for it. Pending deliveries continue when it is enabled again. Needs If-Match.
         */
        patch: operations["changeWebhookEndpoint"];
        trace?: never;
    };
    "/v1/webhook-endpoints/{endpointId}/rotate-secret": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Rotate the secret
         * @description The server creates a new secret. For `overlapHours` it signs with both the new and the previous secret, and the signature header holds two signatures. This gives you time to change the receiver over.
         */
        post: operations["rotateWebhookSecret"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/webhook-endpoints/{endpointId}/test": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Send a test event
         * @description Queues a `webhook.test` event, whatever the endpoint’s filters. The delivery shows the result.
         */
        post: operations["testWebhookEndpoint"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/webhook-deliveries": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * List webhook deliveries
         * @description One delivery for each event and endpoint, latest first. Deliveries are kept for 90 days.
         */
        get: operations["listWebhookDeliveries"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/webhook-deliveries/{deliveryId}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /**
         * Read a delivery
         * @description The event as it is sent, with its latest attempts.
         */
        get: operations["getWebhookDelivery"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/webhook-deliveries/{deliveryId}/replay": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /**
         * Deliver an event again
         * @description Queues the delivery again with the same webhook-id and body. The retry schedule starts from the beginning.
         */
        post: operations["replayWebhookDelivery"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/v1/keys/{keyName}/sessions": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        /**
         * End all sessions of a key
         * @description Ends every browser session that was started with this key, at once. The key itself stays valid. To revoke it, use the command line.
         */
        delete: operations["revokeSessions"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
}
export type webhooks = Record<string, never>;
export interface components {
    schemas: {
        /** @description The next step on this axle: the most urgent of its linings, its rotors or drums and its findings. It supports a decision and never calls a vehicle fit to drive. */
        Advice: {
            /** @enum {string} */
            action: "stop" | "fit-now" | "first-chance" | "fit-before" | "machine" | "measure" | "nothing-yet";
            /** @description The part to work on. `pads` means the linings: pads or shoes. Null if there is nothing to do. */
            part: ("pads" | "rotors" | "drums" | "calipers" | "slides" | "hoses") | null;
            /** @description The date to act by, which is today if the work is due now. Null if there is no date. */
            by: string | null;
            /** @description The next step, in one sentence. */
            words: string;
            /** @description The reason: the reading, the limit and the forecast. */
            why: string;
            /** @description What to do with the rotors or drums, if `words` and `why` do not say. */
            rotors: string | null;
            /** @description Number of checks that open findings of this axle ask for and `words` does not mention; several findings may ask for the same. */
            checks: number;
            /** @description The open check in words, or the number of open checks. Null if there are none. */
            check: string | null;
            /** @description The state of the axle in a few words. */
            status: string;
            /** @enum {string} */
            urgency: "now" | "soon" | "later" | "unknown";
        };
        /** @description The latest visit. Distances and remaining thickness count from it. */
        AsAt: {
            /** Format: date */
            date: string;
            odometerKm: number | null;
        };
        Audit: {
            items: components["schemas"]["AuditEntry"][];
            /** @description Null on the last page. */
            nextCursor: string | null;
        };
        AuditEntry: {
            id: string;
            /** Format: date-time */
            at: string;
            /** @description The name of the API key. Null for a command-line change, or for a version made before the server recorded versions. */
            key: string | null;
            /** @description Null for a command-line change. */
            method: string | null;
            /** @description What was done, in kebab-case. */
            action: string;
            /** @description The kind of resource. */
            resource: string;
            resourceId: string;
            /** @description For an import, what it added. */
            detail: string | null;
        };
        AxleDueEvent: {
            /** @constant */
            type: "axle.due";
            /**
             * Format: date-time
             * @description When the event happened. Every delivery attempt sends the same value.
             */
            timestamp: string;
            data: {
                vehicleId: string;
                externalId: string | null;
                fleet: string | null;
                model: string | null;
                /** @enum {string} */
                axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                overdue: boolean;
                /** Format: date */
                horizon: string;
                /** @description The chance that the governing limit is reached by the horizon. */
                chance: number;
                earlyDate: string | null;
                medianDate: string | null;
                lateDate: string | null;
                governingPad: {
                    side: ("left" | "right") | null;
                    /** @enum {string} */
                    pad: "inner" | "outer" | "leading" | "trailing" | "thinnest";
                } | null;
                /**
                 * @description What the linings of this axle are.
                 * @enum {string}
                 */
                linings: "pads" | "shoes";
                limitMm: number | null;
                limitSource: string | null;
                lastReadingDate: string | null;
                /**
                 * @description The part that reaches its limit first: the linings (`pads`: pads or shoes), the rotors or the drums. The dates, the limit and the reading belong to this part.
                 * @enum {string}
                 */
                part: "pads" | "rotors" | "drums";
                message: string;
                /** @description The limits of the event: what it does not tell the receiver. */
                caution: string;
            };
        };
        AxlePlan: {
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /**
             * @description The part to fit.
             * @enum {string}
             */
            item: "pad-set" | "rotor-pair" | "shoe-set" | "drum-pair";
            limitMm: number | null;
            /** @description The usable thickness of a new lining: from new to the limit. */
            usableMm: number | null;
            overdue: boolean;
            /** @description The chance that the rotors or drums would not outlast the new set, so they should be replaced with it. Null if unknown. */
            chanceRotorsToo: number | null;
            visits: components["schemas"]["PlanVisit"][];
            /** @description The visit that the rule recommends. Null if no visit meets the rule. */
            recommended: string | null;
            words: string;
            reasons: components["schemas"]["Reason"][];
        };
        AxleSpec: {
            brake?: ("disc" | "drum") | null;
            actuation?: ("hydraulic" | "air" | "electric" | "mechanical") | null;
            steered?: boolean | null;
            lining?: ("bonded" | "riveted" | "bolted") | null;
            pad?: components["schemas"]["PadSpec"] | null;
            rotor?: components["schemas"]["RotorSpec"] | null;
            shoe?: components["schemas"]["PadSpec"] | null;
            drum?: components["schemas"]["DrumSpec"] | null;
            torque?: {
                [key: string]: components["schemas"]["TorqueSpec"];
            } | null;
        };
        AxleWear: {
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            advice: components["schemas"]["Advice"];
            pads: components["schemas"]["PadWear"][];
            replacement: components["schemas"]["Replacement"];
            rotors: components["schemas"]["RotorWear"][];
            drums: components["schemas"]["DrumWear"][];
            findings: components["schemas"]["Finding"][];
        };
        Basis: {
            /** @description Readings of the pads now on this axle. */
            readings: number;
            /** @description The name of the experience that the forecast used. */
            experience: string;
            /**
             * @description What is known of the fitted set’s origin: its fitting is recorded, it is the vehicle’s original set, or neither is certain.
             * @enum {string}
             */
            set: "recorded" | "original" | "unknown" | "perhaps-replaced";
            words: string;
        };
        CalendarSubscription: {
            id: string;
            /** @constant */
            version: 1;
            name: string | null;
            withinDays: number | null;
            chance: number | null;
            fleet: string | null;
            axle: ("front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9") | null;
            /** @description The name of the key that created it. Revoking that key also closes the calendar. */
            createdBy: string;
            /** Format: date-time */
            createdAt: string;
        };
        /**
         * @example {
         *       "name": "calendar of the north depot",
         *       "withinDays": 90,
         *       "fleet": "north-depot"
         *     }
         */
        CalendarSubscriptionBody: {
            /** @description A name to recognize this calendar by in the list. */
            name?: string | null;
            /** @description Days from today to the horizon. If missing, the policy’s value whenever the calendar is fetched. */
            withinDays?: number | null;
            /** @description The minimum chance of being due for an axle to be listed. If missing, the policy’s value whenever the calendar is fetched. */
            chance?: number | null;
            /** @description Only vehicles of this fleet. If missing, every vehicle that the key may see. */
            fleet?: string | null;
            axle?: ("front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9") | null;
        };
        CalendarSubscriptionList: {
            items: components["schemas"]["CalendarSubscription"][];
            /** @description Null on the last page. */
            nextCursor: string | null;
        };
        Caution: {
            code: string;
            message: string;
            source: string;
        };
        ConditionBody: {
            /** @enum {string} */
            part: "rotor" | "pad" | "caliper" | "hose" | "slide" | "drum" | "shoe";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            pad?: ("inner" | "outer" | "leading" | "trailing" | "thinnest") | null;
            /** @enum {string} */
            state: "cracked" | "scored" | "heat-spotted" | "corroded" | "contaminated" | "loose" | "glazed" | "seized" | "leaking" | "ok";
            notes?: string | null;
        };
        /**
         * @example {
         *       "reason": "odometer typed with one digit too many",
         *       "changes": {
         *         "odometer": {
         *           "value": 61240,
         *           "unit": "km"
         *         }
         *       }
         *     }
         * @example {
         *       "reason": "recorded on the wrong van",
         *       "void": true
         *     }
         */
        CorrectionBody: {
            /** @description The reason, which the history shows. */
            reason: string;
            /** @description An RFC 7396 merge patch of the current visit in the form of a VisitBody, with later entries included. Arrays are replaced whole. */
            changes?: {
                [key: string]: unknown;
            };
            /** @description True voids the visit; false restores it. Only an owner’s key may send this. */
            void?: boolean;
        };
        DateAccuracy: {
            vehicles: number;
            /** @description Sets of pads whose first pad is known to have reached its limit. */
            padSets: number;
            /** @description Forecasts made while those pads were fitted, before they reached the limit. */
            forecasts: number;
            /** @description Forecasts for pads that have not reached their limit yet, or were changed long before it. */
            underWay: number;
            figures: components["schemas"]["DateFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        DateAccuracyByAxleAndModel: {
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @description Null for vehicles without a model. */
            model: string | null;
            vehicles: number;
            /** @description Sets of pads whose first pad is known to have reached its limit. */
            padSets: number;
            /** @description Forecasts made while those pads were fitted, before they reached the limit. */
            forecasts: number;
            /** @description Forecasts for pads that have not reached their limit yet, or were changed long before it. */
            underWay: number;
            figures: components["schemas"]["DateFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        DateAccuracyByReadings: {
            /**
             * @description The number of readings of the fitted pads when the forecast was made.
             * @enum {string}
             */
            stage: "0" | "1–4" | "5–8" | "9–16" | "17+";
            vehicles: number;
            /** @description Sets of pads whose first pad is known to have reached its limit. */
            padSets: number;
            /** @description Forecasts made while those pads were fitted, before they reached the limit. */
            forecasts: number;
            /** @description Forecasts for pads that have not reached their limit yet, or were changed long before it. */
            underWay: number;
            figures: components["schemas"]["DateFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        DateAccuracyBySet: {
            /**
             * @description How the age of the set was known when the forecast was made, as in its `basis.set`.
             * @enum {string}
             */
            set: "recorded" | "original" | "unknown" | "perhaps-replaced";
            vehicles: number;
            /** @description Sets of pads whose first pad is known to have reached its limit. */
            padSets: number;
            /** @description Forecasts made while those pads were fitted, before they reached the limit. */
            forecasts: number;
            /** @description Forecasts for pads that have not reached their limit yet, or were changed long before it. */
            underWay: number;
            figures: components["schemas"]["DateFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        DateFigures: {
            /** @description Share of the sets whose date is interpolated between a reading above the limit and the next one at or below it. */
            interpolatedShare: number;
            /** @description Share of the sets that were changed early and whose date is extrapolated along a straight line through their own wear. */
            extrapolatedShare: number;
            /** @description Mean absolute error of the median date. */
            meanAbsoluteErrorDays: number;
            medianAbsoluteErrorDays: number;
            /** @description Mean of forecast minus actual date. Positive if the forecast dates were too late. */
            biasDays: number;
            meanAbsoluteErrorKm: number | null;
            biasKm: number | null;
            /** @description Forecasts whose early-to-late interval contains the actual day. */
            inside80: number;
            /** @description Forecasts where the limit was reached before the early date. */
            before80: number;
            /** @description Forecasts where the limit was reached after the late date. */
            after80: number;
            inside80Share: number;
            /** @description The standard error, with the forecasts of one vehicle treated as one cluster. */
            inside80StandardError: number | null;
            /** @description The same share, corrected for the sets still in use. Fast-wearing pads reach their limit first, so the finished sets alone are a biased sample. The correction is a Kaplan–Meier estimate, which takes each forecast’s probability of reaching the limit by the day as its time scale. */
            inside80ShareWithUnderWay: number | null;
            /** @description Compared with the two-point rule: the wear rate from new to the latest reading, driven on at the km a day between the last two visits. */
            againstTwoPoint: components["schemas"]["RivalAccuracy"] | null;
            /** @description Compared with the straight-line rule: a least-squares line through each pad’s thickness when fitted, driven on at the mean km a day since then. */
            againstLine: components["schemas"]["RivalAccuracy"] | null;
        };
        /** @description 10 %, 25 %, 50 %, 75 % and 90 % points; null beyond 30 years. */
        DateInterval: {
            early: string | null;
            lowerQuartile: string | null;
            median: string | null;
            upperQuartile: string | null;
            late: string | null;
        };
        DecisionReason: {
            code: string;
            detail: string;
        };
        DeliveryAttempt: {
            /** Format: date-time */
            at: string;
            /** @description The HTTP status. Null if no answer came. */
            status: number | null;
            /** @description The failure, or the first characters of the receiver’s answer. */
            detail: string;
        };
        /** @description A distance as it was sent, and in kilometres. */
        Distance: {
            value: number;
            /** @enum {string} */
            unit: "km" | "mi";
            km: number;
        };
        /** @description 10 %, 25 %, 50 %, 75 % and 90 % points of the distance from `asAt`. */
        DistanceInterval: {
            early: number | null;
            lowerQuartile: number | null;
            median: number | null;
            upperQuartile: number | null;
            late: number | null;
        };
        DrumDiameter: {
            /** @constant */
            kind: "drum-diameter";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @enum {string} */
            side: "left" | "right";
            point?: number | null;
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            /**
             * @default as-found
             * @enum {string}
             */
            taken: "as-found" | "as-left";
            /** @description The name of a gauge in GET /v1/gauges. If missing, the server assumes a coarse gauge. */
            gauge?: string | null;
            /** @default 1 */
            repeat: number;
            id: string;
            mm: number;
        };
        /** @description Inner diameter of the worn track, at several points across different diameters. */
        DrumDiameterBody: {
            /** @constant */
            kind: "drum-diameter";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @enum {string} */
            side: "left" | "right";
            point?: number | null;
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            /**
             * @default as-found
             * @enum {string}
             */
            taken?: "as-found" | "as-left";
            /** @description The name of a gauge in GET /v1/gauges. If missing, the server assumes a coarse gauge. */
            gauge?: string | null;
            /** @default 1 */
            repeat?: number;
        };
        DrumMachinedBody: {
            /** @constant */
            kind: "drum-machined";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
        };
        DrumReplacedBody: {
            /** @constant */
            kind: "drum-replaced";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
            new?: components["schemas"]["EnteredLength"] | null;
            maximum?: components["schemas"]["EnteredLength"] | null;
            machineTo?: components["schemas"]["EnteredLength"] | null;
        };
        DrumSpec: {
            new?: components["schemas"]["Length"] | null;
            maximum?: components["schemas"]["Length"] | null;
            machineTo?: components["schemas"]["Length"] | null;
        };
        DrumWear: {
            /** @enum {string} */
            side: "left" | "right";
            /** @description Visits that measured this drum’s diameter. */
            readings: number;
            fitted: {
                date: string | null;
                odometerKm: number | null;
            } | null;
            latestDate: string | null;
            largestMm: number | null;
            maximumMm: number | null;
            machineToMm: number | null;
            /** @description The maximum diameter minus the largest one measured. */
            marginMm: number | null;
            marginStandardUncertaintyMm: number | null;
            /** @description Whether the latest reading is above the maximum, ignoring the gauge’s error. */
            fails: boolean | null;
            conformity: ("conforms" | "inconclusive" | "does-not-conform") | null;
            /** @description Chance that the part has not passed its maximum diameter, given the gauge’s error and the scatter of repeats. */
            chanceOfConformity: number | null;
            /** @description The same chance, including the error of where the gauge was placed (0.02 mm). The forecast includes this error too. */
            chanceWithPlacement: number | null;
            /** @description The largest diameter measured minus the smallest. */
            outOfRoundMm: number | null;
            /** @description Growth of the diameter. */
            ratePer1000KmMm: components["schemas"]["Range"] | null;
            /** @description When the drum reaches its maximum diameter. */
            date: components["schemas"]["DateInterval"] | null;
            untilNextVisit: components["schemas"]["UntilNextVisit"];
            marginAtShoeReplacementMm: components["schemas"]["Range"] | null;
            marginAfterNextShoeSetMm: components["schemas"]["Range"] | null;
            /** @enum {string} */
            decision: "keep" | "machine" | "replace" | "measure";
            decisionReasons: components["schemas"]["DecisionReason"][];
            reasons: components["schemas"]["Reason"][];
        };
        DueAxle: {
            vehicleId: string;
            externalId: string | null;
            registration: string | null;
            fleet: string | null;
            model: string | null;
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @description The chance that the governing limit is reached by the horizon. */
            chance: number;
            earlyDate: string | null;
            medianDate: string | null;
            lateDate: string | null;
            governingPad: {
                side: ("left" | "right") | null;
                /** @enum {string} */
                pad: "inner" | "outer" | "leading" | "trailing" | "thinnest";
            } | null;
            /**
             * @description What the linings of this axle are.
             * @enum {string}
             */
            linings: "pads" | "shoes";
            limitMm: number | null;
            limitSource: string | null;
            lastReadingDate: string | null;
            /** @description True if a reading fails its limit, or if a limit has more likely than not been reached. */
            overdue: boolean;
            /**
             * @description The part that reaches its limit first: the linings (`pads`: pads or shoes), the rotors or the drums. The dates, the limit and the reading belong to this part.
             * @enum {string}
             */
            part: "pads" | "rotors" | "drums";
            /**
             * Format: date-time
             * @description When the axle’s outlook last changed.
             */
            changedAt: string;
        };
        DueByAxle: {
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            total: number;
            overdueCount: number;
        };
        /** @description The due axles of one fleet or model. Null groups the vehicles without one. */
        DueGroup: {
            fleet?: string | null;
            model?: string | null;
            /** @description The number of items on all pages. */
            total: number;
            /** @description How many of these axles are overdue. */
            overdueCount: number;
            byAxle: components["schemas"]["DueByAxle"][];
        };
        DueSoon: {
            /** Format: date */
            today: string;
            /** Format: date */
            horizon: string;
            chance: number;
            /** @description The number of items on all pages. */
            total: number;
            /** @description How many of these axles are overdue. */
            overdueCount: number;
            byAxle: components["schemas"]["DueByAxle"][];
            /** @description Axles without a forecast. The unassessed report lists them. */
            unassessedCount: number;
            /** @description Axles that are not due but should be measured before work is planned. The measure-first report lists them. */
            measureFirstCount: number;
            /** @description Axles with a stop finding that are not in this list. The stops report lists them. */
            stopCount: number;
            /** @description Totals of all pages by `groupBy`, in the order of the items. Only present with `groupBy`. */
            groups?: components["schemas"]["DueGroup"][];
            items: components["schemas"]["DueAxle"][];
            nextCursor: string | null;
        };
        EnteredAxle: {
            brake?: ("disc" | "drum") | null;
            actuation?: ("hydraulic" | "air" | "electric" | "mechanical") | null;
            steered?: boolean | null;
            lining?: ("bonded" | "riveted" | "bolted") | null;
            pad?: components["schemas"]["EnteredPadSpec"] | null;
            rotor?: components["schemas"]["EnteredRotorSpec"] | null;
            /** @description The linings of a drum brake. */
            shoe?: components["schemas"]["EnteredPadSpec"] | null;
            drum?: components["schemas"]["EnteredDrumSpec"] | null;
            torque?: {
                [key: string]: components["schemas"]["EnteredTorqueSpec"];
            } | null;
        };
        /** @description A distance, in the unit that the odometer shows. */
        EnteredDistance: {
            value: number;
            /** @enum {string} */
            unit: "km" | "mi";
        };
        /** @description Inner diameters; a drum grows towards its maximum. */
        EnteredDrumSpec: {
            new?: components["schemas"]["EnteredLength"] | null;
            maximum?: components["schemas"]["EnteredLength"] | null;
            machineTo?: components["schemas"]["EnteredLength"] | null;
        };
        /** @description A length, in the unit in which it was read. */
        EnteredLength: {
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
        };
        /** @description A mass, in the unit in which it is given. */
        EnteredMass: {
            value: number;
            /** @enum {string} */
            unit: "kg" | "lb";
        };
        /** @description Friction material only, without backing plate. */
        EnteredPadSpec: {
            new?: components["schemas"]["EnteredLength"] | null;
            limit?: components["schemas"]["EnteredLength"] | null;
            wearIndicator?: components["schemas"]["EnteredWearIndicator"] | null;
        };
        EnteredRotorSpec: {
            new?: components["schemas"]["EnteredLength"] | null;
            discard?: components["schemas"]["EnteredLength"] | null;
            machineTo?: components["schemas"]["EnteredLength"] | null;
            runoutLimit?: components["schemas"]["EnteredLength"] | null;
            variationLimit?: components["schemas"]["EnteredLength"] | null;
        };
        /** @description A torque, in the unit in which it was set or read. */
        EnteredTorque: {
            value: number;
            /** @enum {string} */
            unit: "Nm" | "ft-lbf";
        };
        EnteredTorqueSpec: {
            value: number;
            /** @enum {string} */
            unit: "Nm" | "ft-lbf";
            tolerance?: components["schemas"]["EnteredTorque"] | null;
        };
        /** @description The pad thickness at which the wear indicator sounds or lights. */
        EnteredWearIndicator: {
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            type?: ("mechanical" | "electric" | "mark") | null;
        };
        /**
         * @example {
         *       "work": [
         *         {
         *           "kind": "pads-replaced",
         *           "axle": "front",
         *           "new": {
         *             "value": 11,
         *             "unit": "mm"
         *           }
         *         }
         *       ],
         *       "roadTest": {
         *         "pulls": "none"
         *       }
         *     }
         */
        EntryBody: {
            readings?: components["schemas"]["ReadingBody"][] | null;
            notMeasured?: components["schemas"]["NotMeasuredBody"][] | null;
            conditions?: components["schemas"]["ConditionBody"][] | null;
            work?: components["schemas"]["WorkBody"][] | null;
            torques?: components["schemas"]["TorqueBody"][] | null;
            roadTest?: components["schemas"]["RoadTest"] | null;
        };
        Experience: {
            version: number;
            /** Format: date-time */
            createdAt: string;
            vehicles: number;
            groups: components["schemas"]["ExperienceGroup"][];
        };
        ExperienceGroup: {
            /** @description The group: front or rear axles, friction or regenerative braking, discs or drums. */
            name: string;
            vehicles: number;
            readings: number;
            models: {
                model: string;
                vehicles: number;
            }[];
            /** @description Correlation of the log wear rate with the log distance a day. */
            correlation: number;
            /** @description Means over the posterior draws. Rates are in mm per 1,000 km, lengths in mm, daily distances in km. */
            pads: {
                [key: string]: number;
            };
            /** @description Means over the posterior draws. Rates are in mm per 1,000 km, lengths in mm, daily distances in km. */
            usage: {
                [key: string]: number;
            };
        };
        /** @description The latest fits, newest first. Empty if the starting values are still in force. */
        ExperienceList: {
            items: components["schemas"]["Experience"][];
            nextCursor: null;
        };
        Finding: {
            code: string;
            axle: ("front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9") | null;
            side: ("left" | "right") | null;
            pad: ("inner" | "outer" | "leading" | "trailing" | "thinnest") | null;
            /** @enum {string} */
            severity: "note" | "check" | "stop";
            message: string;
            /** @description A check to make, not a diagnosis. */
            check: string;
            /** @description The figures behind the finding. Each name ends in its unit. */
            numbers: {
                [key: string]: number;
            };
        };
        FluidChangedBody: {
            /** @constant */
            kind: "fluid-changed";
            axle?: ("front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9") | null;
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
        };
        ForecastAccuracy: {
            /** @description A summary of the figures in plain words. */
            words: string;
            /** @description Forecast dates and distances compared with when the first pad reached its governing limit. */
            dates: {
                total: components["schemas"]["DateAccuracy"];
                byAxleAndModel: components["schemas"]["DateAccuracyByAxleAndModel"][];
                byReadings: components["schemas"]["DateAccuracyByReadings"][];
                bySet: components["schemas"]["DateAccuracyBySet"][];
            };
            /** @description Each pad reading compared with its forecast from the visit before. */
            nextReadings: {
                total: components["schemas"]["ReadingAccuracy"];
                byAxleAndModel: components["schemas"]["ReadingAccuracyByAxleAndModel"][];
                byReadings: components["schemas"]["ReadingAccuracyByReadings"][];
                bySet: components["schemas"]["ReadingAccuracyBySet"][];
            };
            /** @description Vehicles whose past forecasts have been scored. */
            vehicles: number;
            /** @description Vehicles not scored yet. Ask again later for complete figures. */
            pendingVehicles: number;
            reasons: components["schemas"]["Reason"][];
            /** @description The number of past forecasts on all pages. */
            total: number;
            items: components["schemas"]["PastForecast"][];
            nextCursor: string | null;
        };
        Gauge: {
            id: string;
            /** @description 0 for a standard gauge that the shop has not changed. */
            version: number;
            name: string;
            /** @enum {string} */
            kind: "pad-gauge" | "depth-gauge" | "caliper" | "micrometer" | "dial-indicator" | "drum-gauge" | "visual" | "assumed";
            resolutionMm: number;
            /** @description The standard uncertainty of one reading, including rounding to the resolution. */
            standardUncertaintyMm: number;
            calibrationDate: string | null;
            calibrationDueDate: string | null;
            /** @description Whether its calibration is overdue today. */
            outOfDate: boolean;
        };
        /**
         * @example {
         *       "kind": "depth-gauge",
         *       "resolution": {
         *         "value": 0.1,
         *         "unit": "mm"
         *       },
         *       "standardUncertainty": {
         *         "value": 0.05,
         *         "unit": "mm"
         *       },
         *       "calibrationDate": "2026-01-12",
         *       "calibrationDueDate": "2027-01-12"
         *     }
         */
        GaugeBody: {
            /** @enum {string} */
            kind: "pad-gauge" | "depth-gauge" | "caliper" | "micrometer" | "dial-indicator" | "drum-gauge" | "visual";
            /** @description The smallest step that can be read. */
            resolution: components["schemas"]["EnteredLength"];
            /** @description The standard uncertainty of one reading. If missing, the server takes that of rounding to the resolution: resolution / √12. */
            standardUncertainty?: components["schemas"]["EnteredLength"] | null;
            calibrationDate?: string | null;
            /** @description If missing, one year after calibrationDate (common practice, no source). */
            calibrationDueDate?: string | null;
        };
        GaugeList: {
            items: components["schemas"]["Gauge"][];
            nextCursor: null;
        };
        Health: {
            /** @constant */
            status: "ok";
        };
        Import: {
            id: string;
            /** @description Increases whenever the progress shown here changes. */
            version: number;
            /** @enum {string} */
            kind: "visits" | "vehicles";
            dryRun: boolean;
            /**
             * @description `done`: the server imported the whole file, or a dry run found no errors. `refused`: the file has errors and nothing was imported. `failed`: the import was interrupted and nothing was imported.
             * @enum {string}
             */
            state: "receiving" | "checking" | "forecasting" | "writing" | "done" | "refused" | "failed";
            /** @description Why the import failed. */
            detail: string | null;
            /** @description The name of the key that sent the file. */
            by: string;
            /** @description Rows read so far, without blank rows and the header. */
            rows: number;
            /** @description Vehicles that the rows belong to. */
            vehicles: number;
            /** @description Vehicles whose rows have been checked. */
            vehiclesChecked: number;
            /** @description Vehicles whose outlook has been recomputed. */
            vehiclesForecast: number;
            /** @description Vehicles that have been written. None is visible until all are written. */
            vehiclesWritten: number;
            /** @description New visits. */
            visitsAdded: number;
            /** @description Existing visits to which rows were added. */
            visitsExtended: number;
            /** @description New rows. */
            rowsAdded: number;
            /** @description Rows that were already recorded. */
            rowsSkipped: number;
            /** @description The number of errors, listed or not. */
            errorsTotal: number;
            /** @description The first 1,000 errors, by line. */
            errors: components["schemas"]["RowError"][];
            /** Format: date-time */
            createdAt: string;
            finishedAt: string | null;
        };
        ImportList: {
            items: components["schemas"]["Import"][];
            /** @description Null on the last page. */
            nextCursor: string | null;
        };
        InspectionRule: {
            id: string;
            parts: ("pad" | "shoe" | "rotor" | "drum" | "parking-brake-lining")[];
            /** @description Null means any. */
            actuations: ("hydraulic" | "air" | "electric" | "mechanical")[] | null;
            /** @description Null means any. */
            linings: ("bonded" | "riveted" | "bolted")[] | null;
            /** @description Null means either. */
            steered: boolean | null;
            /** @description The rule, in this service’s own words. */
            clause: string;
            decidedBy: ("figure" | "wear-indicator" | "marked-figure" | "judgement")[];
            /** @description The figure as the source prints it. */
            printed: string | null;
            /** @description Null if the rule prints no figure. */
            limitMm: number | null;
            failsAt: ("at-or-below" | "below") | null;
            /** @description The class of the defect, if the source has classes. */
            result: string | null;
            source: components["schemas"]["RuleSource"];
        };
        InspectionRuleSet: {
            /** @description The id by which the policy names the set. */
            id: string;
            name: string;
            jurisdiction: string;
            appliesTo: string;
            /** @description The gross mass to which the set applies, as the source prints it. */
            grossMass: string | null;
            /** @description The printed unit from which the figures are taken, if the source prints more than one. */
            figures: string;
            /** @description Whether the shop’s policy applies this set. */
            chosen: boolean;
            /** @description Parts of the source that could not be opened and compared. Null if everything was compared. */
            notOpened: string | null;
            rules: components["schemas"]["InspectionRule"][];
        };
        /** @description A length as it was sent, and in millimetres. */
        Length: {
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            mm: number;
        };
        Limit: {
            /** @enum {string} */
            source: "maker" | "law" | "shop" | "wear-indicator";
            /** @description The limit and its source. */
            rule: string;
            /** @description For a legal limit, its rule set in GET /v1/limits. */
            ruleSet?: string;
            /** @description For a legal limit, its rule in that set. */
            ruleId?: string;
            /** @description For a legal limit, the set and the item or section, as they are cited. */
            citation?: string;
            /** @description For a legal limit, the class of the defect, if the source has classes. */
            defectClass?: string;
            /** @description For a legal limit, where the rule is published. */
            link?: string;
            limitMm: number;
            /** @enum {string} */
            failsAt: "at-or-below" | "below";
            /** @description Whether the latest reading fails the rule, ignoring the gauge’s error. */
            fails: boolean | null;
            /** @description Whether the limit is below, inside or above the reading’s 95 % interval. The interval includes the gauge’s error and the scatter of repeats. It leaves out where on the lining the gauge was placed, which `chanceWithPlacement` includes. */
            conformity: ("conforms" | "inconclusive" | "does-not-conform") | null;
            /** @description Chance that the true thickness is above the limit, given the errors that `conformity` includes. */
            chanceOfConformity: number | null;
            /** @description The same chance, including the error of where the gauge was placed on the lining (about 0.2 mm, learned). The forecast includes this error too. */
            chanceWithPlacement: number | null;
            governs: boolean;
        };
        LimitList: {
            items: components["schemas"]["InspectionRuleSet"][];
            nextCursor: null;
            vehicle: components["schemas"]["VehicleRules"] | null;
            notes: components["schemas"]["LimitNote"][];
        };
        LimitNote: {
            code: string;
            message: string;
        };
        LimitPassedEvent: {
            /** @constant */
            type: "limit.passed";
            /**
             * Format: date-time
             * @description When the event happened. Every delivery attempt sends the same value.
             */
            timestamp: string;
            data: {
                vehicleId: string;
                externalId: string | null;
                fleet: string | null;
                model: string | null;
                /** @enum {string} */
                axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                readingDate: string | null;
                finding: components["schemas"]["Finding"];
                /** @description The limits of the event: what it does not tell the receiver. */
                caution: string;
                /** @description True if the reading is so near the limit that the gauge cannot tell which side it is on. The part counts as at its limit until it is measured again. */
                tooCloseToTell: boolean;
            };
        };
        /** @description The mean, and 10 %, 50 % and 90 % points. */
        LiningLeft: {
            expected: number;
            low: number;
            median: number;
            high: number;
        };
        /** @description A mass as it was sent, and in kilograms. */
        Mass: {
            value: number;
            /** @enum {string} */
            unit: "kg" | "lb";
            kg: number;
        };
        MeasureFirst: {
            /** Format: date */
            today: string;
            /** Format: date */
            horizon: string;
            chance: number;
            /** @description The number of items on all pages. */
            total: number;
            items: components["schemas"]["MeasureFirstAxle"][];
            nextCursor: string | null;
        };
        MeasureFirstAxle: {
            vehicleId: string;
            externalId: string | null;
            registration: string | null;
            fleet: string | null;
            model: string | null;
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @description The chance that the governing limit is reached by the horizon. */
            chance: number;
            earlyDate: string | null;
            medianDate: string | null;
            lateDate: string | null;
            governingPad: {
                side: ("left" | "right") | null;
                /** @enum {string} */
                pad: "inner" | "outer" | "leading" | "trailing" | "thinnest";
            } | null;
            /**
             * @description What the linings of this axle are.
             * @enum {string}
             */
            linings: "pads" | "shoes";
            limitMm: number | null;
            limitSource: string | null;
            lastReadingDate: string | null;
            /** @description Why, and what to measure: `reading-overdue`, `dates-too-far-apart`. */
            reasons: components["schemas"]["DecisionReason"][];
        };
        /**
         * @example {
         *       "from": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de009",
         *       "reason": "recorded twice, once under its old plate"
         *     }
         */
        MergeBody: {
            /** @description The id of the other record of this vehicle. */
            from: string;
            /** @description The reason, which the history shows. */
            reason: string;
        };
        NewCalendarSubscription: {
            id: string;
            /** @constant */
            version: 1;
            name: string | null;
            withinDays: number | null;
            chance: number | null;
            fleet: string | null;
            axle: ("front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9") | null;
            /** @description The name of the key that created it. Revoking that key also closes the calendar. */
            createdBy: string;
            /** Format: date-time */
            createdAt: string;
            /** @description The secret path on this server. Anyone who has it can read the calendar. It is shown only in this answer. */
            path: string;
            /** @description The full address, starting with PUBLIC_URL. Null if PUBLIC_URL is not set. */
            url: string | null;
        };
        NotMeasuredBody: {
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            part?: ("rotor" | "pad" | "caliper" | "hose" | "slide" | "drum" | "shoe") | null;
            pad?: ("inner" | "outer" | "leading" | "trailing" | "thinnest") | null;
            why: string;
        };
        OffForecastEvent: {
            /** @constant */
            type: "reading.off_forecast";
            /**
             * Format: date-time
             * @description When the event happened. Every delivery attempt sends the same value.
             */
            timestamp: string;
            data: {
                vehicleId: string;
                externalId: string | null;
                fleet: string | null;
                model: string | null;
                /** @enum {string} */
                axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                readingDate: string | null;
                finding: components["schemas"]["Finding"];
                /** @description The limits of the event: what it does not tell the receiver. */
                caution: string;
            };
        };
        OpenPoint: {
            /** @description Stable, kebab-case. */
            code: string;
            axle: ("front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9") | null;
            side: ("left" | "right") | null;
            pad: ("inner" | "outer" | "leading" | "trailing" | "thinnest") | null;
            fastener: string | null;
            /** @description The code of the unanswered finding. */
            finding: string | null;
            message: string;
            numbers: {
                [key: string]: number;
            };
        };
        OpenPoints: {
            visitId: string;
            /** @description Whether the records have no open points. This says nothing about the vehicle’s safety. */
            complete: boolean;
            items: components["schemas"]["OpenPoint"][];
        };
        PadSpec: {
            new?: components["schemas"]["Length"] | null;
            limit?: components["schemas"]["Length"] | null;
            wearIndicator?: components["schemas"]["WearIndicator"] | null;
        };
        PadThickness: {
            /** @constant */
            kind: "pad-thickness";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @description Null for the thinnest lining of the axle. */
            side: ("left" | "right") | null;
            /**
             * @description Inner or outer; or `thinnest`, the thinner pad of that wheel or, without a side, the thinnest of the axle.
             * @enum {string}
             */
            pad: "inner" | "outer" | "thinnest";
            /**
             * @default thinnest
             * @enum {string}
             */
            at: "thinnest" | "leading" | "centre" | "trailing";
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            /**
             * @default as-found
             * @enum {string}
             */
            taken: "as-found" | "as-left";
            /** @description The name of a gauge in GET /v1/gauges. If missing, the server assumes a coarse gauge. */
            gauge?: string | null;
            /** @default 1 */
            repeat: number;
            id: string;
            mm: number;
        };
        /** @description Friction material only, at its thinnest, without backing plate, shim and bevel; riveted linings above the rivet head. */
        PadThicknessBody: {
            /** @constant */
            kind: "pad-thickness";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /**
             * @description Required unless the reading is of the thinnest lining. If it is missing there, the reading is the thinnest of the axle.
             * @default null
             */
            side?: ("left" | "right") | null;
            /**
             * @description Inner or outer; or `thinnest`, the thinner pad of that wheel or, without a side, the thinnest of the axle.
             * @enum {string}
             */
            pad: "inner" | "outer" | "thinnest";
            /**
             * @default thinnest
             * @enum {string}
             */
            at?: "thinnest" | "leading" | "centre" | "trailing";
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            /**
             * @default as-found
             * @enum {string}
             */
            taken?: "as-found" | "as-left";
            /** @description The name of a gauge in GET /v1/gauges. If missing, the server assumes a coarse gauge. */
            gauge?: string | null;
            /** @default 1 */
            repeat?: number;
        };
        PadWear: {
            side: ("left" | "right") | null;
            /**
             * @description The inner or outer pad; on a drum brake, the leading or trailing shoe. `thinnest` is the thinner lining of a wheel or, without a side, the thinnest of the axle.
             * @enum {string}
             */
            pad: "inner" | "outer" | "leading" | "trailing" | "thinnest";
            /** @description Readings of the pad since it was fitted. */
            readings: number;
            /** @description When the pad was fitted. Null if unknown. */
            fitted: {
                date: string | null;
                odometerKm: number | null;
            } | null;
            latest: {
                valueMm: number;
                /** Format: date */
                date: string;
            } | null;
            ratePer1000KmMm: components["schemas"]["Range"] | null;
            /** @description Lining left above the governing limit, at `asAt`. */
            remainingMm: components["schemas"]["Range"] | null;
            limits: components["schemas"]["Limit"][];
            reasons: components["schemas"]["Reason"][];
        };
        PadsReplacedBody: {
            /** @constant */
            kind: "pads-replaced";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
            new?: components["schemas"]["EnteredLength"] | null;
            limit?: components["schemas"]["EnteredLength"] | null;
            wearIndicator?: components["schemas"]["EnteredWearIndicator"] | null;
        };
        PartsDemand: {
            /** Format: date */
            today: string;
            /** @description The totals in words, with a note of what they leave out. */
            words: string;
            /** @description Axles that may need parts within these months. */
            axles: number;
            /** @description Axles, among these, without a rotor or drum forecast, because readings or specifications are missing. Their rotors and drums are left out. */
            rotorsUnknownCount: number;
            /** @description Axles without a forecast, which are left out. The unassessed report lists them. */
            unassessedCount: number;
            /** @description Totals of all fleets, models and axles. */
            totals: components["schemas"]["PartsDemandTotal"][];
            items: components["schemas"]["PartsDemandItem"][];
            nextCursor: null;
        };
        PartsDemandItem: {
            /**
             * @description A calendar month, YYYY-MM.
             * @example 2026-03
             */
            month: string;
            /**
             * @description A set of linings or a pair of rotors or drums, for one axle.
             * @enum {string}
             */
            item: "pad-set" | "rotor-pair" | "shoe-set" | "drum-pair";
            /** @description The expected number: the sum of the chances of all axles. */
            expected: number;
            /** @description The 10 % point of the number. */
            low: number;
            /** @description The 90 % point of the number. */
            high: number;
            fleet: string | null;
            model: string | null;
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
        };
        PartsDemandTotal: {
            /**
             * @description A calendar month, YYYY-MM.
             * @example 2026-03
             */
            month: string;
            /**
             * @description A set of linings or a pair of rotors or drums, for one axle.
             * @enum {string}
             */
            item: "pad-set" | "rotor-pair" | "shoe-set" | "drum-pair";
            /** @description The expected number: the sum of the chances of all axles. */
            expected: number;
            /** @description The 10 % point of the number. */
            low: number;
            /** @description The 90 % point of the number. */
            high: number;
        };
        PastForecast: {
            vehicleId: string;
            externalId: string | null;
            registration: string | null;
            fleet: string | null;
            model: string | null;
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /**
             * Format: date
             * @description The date of the visit at which the forecast was made.
             */
            forecastDate: string;
            readings: number;
            /**
             * @description How the age of the set was known when the forecast was made, as in its `basis.set`.
             * @enum {string}
             */
            set: "recorded" | "original" | "unknown" | "perhaps-replaced";
            /** @description The name of the experience that the forecast used. */
            experience: string;
            earlyDate: string | null;
            medianDate: string | null;
            lateDate: string | null;
            /**
             * Format: date
             * @description When the limit was reached. If `howKnown` is extrapolated, when it would have been reached, which may be in the future.
             */
            reachedDate: string;
            /** @enum {string} */
            howKnown: "interpolated" | "extrapolated";
            /** @description Median date minus actual date. Positive if the forecast was too late. */
            errorDays: number | null;
            errorKm: number | null;
            inside80: boolean;
            twoPointErrorDays: number | null;
            lineErrorDays: number | null;
            reasons: components["schemas"]["Reason"][];
        };
        PlanRule: {
            /** @enum {string} */
            kind: "least-expected-cost" | "greatest-chance";
            /** @description The maximum accepted chance of being too late. Null if costs decide. */
            greatestChance: number | null;
            costTooLate: number | null;
            costPerMmWasted: number | null;
            /** @description The rule and its assumptions. */
            words: string;
        };
        PlanVisit: {
            /** Format: date */
            date: string;
            /** @description The chance that a lining reaches its governing limit before this visit. */
            chanceTooLate: number;
            /** @description Lining wasted if the job is done at this visit: what the thinnest lining has left above its limit. 0 if it has reached the limit. */
            wastedMm: components["schemas"]["LiningLeft"];
            /** @description The wasted lining as a share of a new lining’s usable thickness. */
            wastedShare: components["schemas"]["LiningLeft"] | null;
            /** @description `costTooLate` × `chanceTooLate` + `costPerMmWasted` × `wastedMm.expected`; null without costs. */
            expectedCost: number | null;
        };
        Policy: {
            /** @constant */
            id: "policy";
            /** @description 0 if the defaults are in force. */
            version: number;
            ruleSets: string[];
            padMinimum: components["schemas"]["Length"] | null;
            /**
             * @description Default parameters of GET /v1/reports/due-soon.
             * @default {
             *       "withinDays": 60,
             *       "chance": 0.1
             *     }
             */
            dueSoon: {
                /** @default 60 */
                withinDays: number;
                /** @default 0.1 */
                chance: number;
            };
            /**
             * @description Days between visits that the server assumes for a vehicle without a regular visit interval.
             * @default 182
             */
            visitIntervalDays: number;
            /**
             * @description An axle that has not been measured for longer than this gets a finding.
             * @default 365
             */
            longestDaysWithoutReading: number;
            /**
             * @description How many years `npm run prune` keeps audit entries and superseded versions. Null keeps them for good.
             * @default null
             */
            retentionYears: number | null;
            /**
             * @description What a fleet manager can see of a vehicle’s time in other fleets before it came to theirs. The forecasts use all readings, shown or not.
             * @default {
             *       "readings": true,
             *       "notes": false,
             *       "names": false,
             *       "fleets": false
             *     }
             */
            beforeTransfer: {
                /**
                 * @description Visits and their readings.
                 * @default true
                 */
                readings: boolean;
                /**
                 * @description Complaints, notes, reasons and the vehicle’s earlier descriptions.
                 * @default false
                 */
                notes: boolean;
                /**
                 * @description Technicians, shops and the names of keys.
                 * @default false
                 */
                names: boolean;
                /**
                 * @description The names of the vehicle’s earlier fleets.
                 * @default false
                 */
                fleets: boolean;
            };
            updatedAt: string | null;
            /** @description The name of the key that set it. */
            updatedBy: string | null;
        };
        /**
         * @example {
         *       "ruleSets": [
         *         "uk-inspection-manual"
         *       ],
         *       "padMinimum": {
         *         "value": 3,
         *         "unit": "mm"
         *       },
         *       "dueSoon": {
         *         "withinDays": 60,
         *         "chance": 0.1
         *       },
         *       "visitIntervalDays": 182,
         *       "longestDaysWithoutReading": 365,
         *       "retentionYears": null,
         *       "beforeTransfer": {
         *         "readings": true,
         *         "notes": false,
         *         "names": false,
         *         "fleets": false
         *       }
         *     }
         */
        PolicyBody: {
            /**
             * @description The ids of the rule sets in GET /v1/limits that apply. None apply by default.
             * @default []
             */
            ruleSets?: string[];
            /**
             * @description The shop’s own minimum thickness of friction material. A reading below it fails.
             * @default null
             */
            padMinimum?: components["schemas"]["EnteredLength"] | null;
            /**
             * @description Default parameters of GET /v1/reports/due-soon.
             * @default {
             *       "withinDays": 60,
             *       "chance": 0.1
             *     }
             */
            dueSoon?: {
                /** @default 60 */
                withinDays?: number;
                /** @default 0.1 */
                chance?: number;
            };
            /**
             * @description Days between visits that the server assumes for a vehicle without a regular visit interval.
             * @default 182
             */
            visitIntervalDays?: number;
            /**
             * @description An axle that has not been measured for longer than this gets a finding.
             * @default 365
             */
            longestDaysWithoutReading?: number;
            /**
             * @description How many years `npm run prune` keeps audit entries and superseded versions. Null keeps them for good.
             * @default null
             */
            retentionYears?: number | null;
            /**
             * @description What a fleet manager can see of a vehicle’s time in other fleets before it came to theirs. The forecasts use all readings, shown or not.
             * @default {
             *       "readings": true,
             *       "notes": false,
             *       "names": false,
             *       "fleets": false
             *     }
             */
            beforeTransfer?: {
                /**
                 * @description Visits and their readings.
                 * @default true
                 */
                readings?: boolean;
                /**
                 * @description Complaints, notes, reasons and the vehicle’s earlier descriptions.
                 * @default false
                 */
                notes?: boolean;
                /**
                 * @description Technicians, shops and the names of keys.
                 * @default false
                 */
                names?: boolean;
                /**
                 * @description The names of the vehicle’s earlier fleets.
                 * @default false
                 */
                fleets?: boolean;
            };
        };
        /** @description RFC 9457 problem details. */
        Problem: {
            /** @description Identifies the kind of problem. */
            type: string;
            title: string;
            status: number;
            detail: string;
            /**
             * @description Stable, kebab-case. Later versions may add codes.
             * @enum {string}
             */
            code: "malformed-request" | "bad-parameter" | "key-needed" | "role-not-allowed" | "form-from-elsewhere" | "not-found" | "method-not-allowed" | "request-too-slow" | "duplicate-vehicle" | "work-order-known" | "vehicle-erased" | "road-test-recorded" | "visit-voided" | "visit-not-voided" | "work-orders-collide" | "too-many-webhook-endpoints" | "webhook-endpoint-disabled" | "request-under-way" | "stale-version" | "body-too-large" | "media-type-not-supported" | "expectation-failed" | "invalid" | "import-refused" | "idempotency-key-reused" | "precondition-needed" | "headers-too-large" | "too-many-requests" | "internal-error" | "unavailable" | "storage-full";
            /** @description The request ID, as it appears in the log. */
            instance: string;
            errors?: {
                detail: string;
                /** @description JSON pointer into the body, such as #/readings/0/value. */
                pointer?: string;
                parameter?: string;
                header?: string;
                line?: number;
                column?: string | null;
                code?: string;
            }[];
            /** @description The conflicting vehicle, or the vehicle that this record was merged into. */
            vehicleId?: string;
            /** @description The conflicting visit. */
            visitId?: string;
            importId?: string;
            rows?: number;
            /** @description The number of errors in the file. `errors` lists the first 1,000. */
            errorsTotal?: number;
        };
        /** @description 10 %, 50 % and 90 % points. */
        Range: {
            low: number;
            median: number;
            high: number;
        };
        Reading: components["schemas"]["PadThickness"] | components["schemas"]["RotorThickness"] | components["schemas"]["RotorRunout"] | components["schemas"]["ShoeThickness"] | components["schemas"]["DrumDiameter"];
        ReadingAccuracy: {
            vehicles: number;
            readings: number;
            figures: components["schemas"]["ReadingFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        ReadingAccuracyByAxleAndModel: {
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @description Null for vehicles without a model. */
            model: string | null;
            vehicles: number;
            readings: number;
            figures: components["schemas"]["ReadingFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        ReadingAccuracyByReadings: {
            /**
             * @description The number of readings of the fitted pads when the forecast was made.
             * @enum {string}
             */
            stage: "0" | "1–4" | "5–8" | "9–16" | "17+";
            vehicles: number;
            readings: number;
            figures: components["schemas"]["ReadingFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        ReadingAccuracyBySet: {
            /**
             * @description How the age of the set was known when the forecast was made, as in its `basis.set`.
             * @enum {string}
             */
            set: "recorded" | "original" | "unknown" | "perhaps-replaced";
            vehicles: number;
            readings: number;
            figures: components["schemas"]["ReadingFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        ReadingBody: components["schemas"]["PadThicknessBody"] | components["schemas"]["RotorThicknessBody"] | components["schemas"]["RotorRunoutBody"] | components["schemas"]["ShoeThicknessBody"] | components["schemas"]["DrumDiameterBody"];
        /** @description Standard errors treat the readings of one vehicle as one cluster. */
        ReadingFigures: {
            meanAbsoluteErrorMm: number;
            /** @description Mean of reading minus forecast median. Positive if the pads wore less than forecast. */
            biasMm: number;
            /** @description Continuous ranked probability score; lower is better. */
            meanCrpsMm: number;
            inside50Share: number;
            inside50StandardError: number;
            inside80Share: number;
            inside80StandardError: number;
            inside95Share: number;
            inside95StandardError: number;
            /** @description Histogram of the readings’ forecast quantiles, in tenths from thinnest to thickest. All are 0.1 if the forecasts are calibrated. */
            tenthShares: number[];
        };
        Reason: {
            /** @description The field that is null, as a path from the object that holds `reasons`. */
            field: string;
            /** @description Stable, kebab-case. */
            code: string;
            /** @description The reason in words. */
            detail: string;
        };
        RecordedVisit: {
            id: string;
            version: number;
            vehicleId: string;
            /** Format: date */
            date: string;
            time?: string | null;
            odometer?: components["schemas"]["Distance"] | null;
            odometerReplaced?: {
                oldFinal?: components["schemas"]["Distance"] | null;
                newStart?: components["schemas"]["Distance"] | null;
            } | null;
            workOrder?: string | null;
            shop?: string | null;
            technician?: string | null;
            complaint?: string | null;
            notes?: string | null;
            readings: components["schemas"]["Reading"][];
            notMeasured: components["schemas"]["NotMeasuredBody"][];
            conditions: components["schemas"]["ConditionBody"][];
            work: components["schemas"]["WorkItem"][];
            torques: components["schemas"]["TorqueReading"][];
            roadTest?: components["schemas"]["RoadTest"] | null;
            voided?: components["schemas"]["Voided"] | null;
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            updatedAt: string;
            findings: components["schemas"]["Finding"][];
            cautions: components["schemas"]["Caution"][];
            /** @description The outlook of each axle, as in GET …/wear. */
            outlook: {
                [key: string]: components["schemas"]["AxleWear"];
            };
        };
        Replacement: {
            governingPad: {
                side: ("left" | "right") | null;
                /**
                 * @description The inner or outer pad; on a drum brake, the leading or trailing shoe. `thinnest` is the thinner lining of a wheel or, without a side, the thinnest of the axle.
                 * @enum {string}
                 */
                pad: "inner" | "outer" | "leading" | "trailing" | "thinnest";
            } | null;
            limitMm: number | null;
            distanceKm: components["schemas"]["DistanceInterval"] | null;
            date: components["schemas"]["DateInterval"] | null;
            overdue: boolean;
            basis: components["schemas"]["Basis"];
            untilNextVisit: components["schemas"]["UntilNextVisit"];
            reasons: components["schemas"]["Reason"][];
        };
        ReplacementPlan: {
            vehicleId: string;
            /** Format: date */
            today: string;
            asAt: components["schemas"]["AsAt"] | null;
            /**
             * @description Where the visit dates come from: the request, the vehicle’s own visit interval, or the policy’s interval.
             * @enum {string}
             */
            dateSource: "dates" | "rhythm" | "policy";
            rule: components["schemas"]["PlanRule"];
            axles: components["schemas"]["AxlePlan"][];
            cautions: components["schemas"]["Caution"][];
            reasons: components["schemas"]["Reason"][];
        };
        RivalAccuracy: {
            forecasts: number;
            meanAbsoluteErrorDays: number;
            /** @description Mean absolute error of the server’s forecasts, divided by that of the simple rule for the same pads. */
            ratio: number | null;
        };
        RoadTest: {
            pulls?: ("none" | "left" | "right") | null;
            pulsation?: boolean | null;
            noise?: boolean | null;
            notes?: string | null;
        };
        RotorMachinedBody: {
            /** @constant */
            kind: "rotor-machined";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
        };
        RotorReplacedBody: {
            /** @constant */
            kind: "rotor-replaced";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
            new?: components["schemas"]["EnteredLength"] | null;
            discard?: components["schemas"]["EnteredLength"] | null;
            machineTo?: components["schemas"]["EnteredLength"] | null;
            runoutLimit?: components["schemas"]["EnteredLength"] | null;
            variationLimit?: components["schemas"]["EnteredLength"] | null;
        };
        RotorRunout: {
            /** @constant */
            kind: "rotor-runout";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @enum {string} */
            side: "left" | "right";
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            /**
             * @default as-found
             * @enum {string}
             */
            taken: "as-found" | "as-left";
            /** @description The name of a gauge in GET /v1/gauges. If missing, the server assumes a coarse gauge. */
            gauge?: string | null;
            /** @default 1 */
            repeat: number;
            id: string;
            mm: number;
        };
        /** @description Total indicated reading of the mounted rotor. */
        RotorRunoutBody: {
            /** @constant */
            kind: "rotor-runout";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @enum {string} */
            side: "left" | "right";
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            /**
             * @default as-found
             * @enum {string}
             */
            taken?: "as-found" | "as-left";
            /** @description The name of a gauge in GET /v1/gauges. If missing, the server assumes a coarse gauge. */
            gauge?: string | null;
            /** @default 1 */
            repeat?: number;
        };
        RotorSpec: {
            new?: components["schemas"]["Length"] | null;
            discard?: components["schemas"]["Length"] | null;
            machineTo?: components["schemas"]["Length"] | null;
            runoutLimit?: components["schemas"]["Length"] | null;
            variationLimit?: components["schemas"]["Length"] | null;
        };
        RotorThickness: {
            /** @constant */
            kind: "rotor-thickness";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @enum {string} */
            side: "left" | "right";
            point?: number | null;
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            /**
             * @default as-found
             * @enum {string}
             */
            taken: "as-found" | "as-left";
            /** @description The name of a gauge in GET /v1/gauges. If missing, the server assumes a coarse gauge. */
            gauge?: string | null;
            /** @default 1 */
            repeat: number;
            id: string;
            mm: number;
        };
        /** @description Measured inside the worn band, away from the rust lip, at several points on one radius. */
        RotorThicknessBody: {
            /** @constant */
            kind: "rotor-thickness";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @enum {string} */
            side: "left" | "right";
            point?: number | null;
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            /**
             * @default as-found
             * @enum {string}
             */
            taken?: "as-found" | "as-left";
            /** @description The name of a gauge in GET /v1/gauges. If missing, the server assumes a coarse gauge. */
            gauge?: string | null;
            /** @default 1 */
            repeat?: number;
        };
        RotorWear: {
            /** @enum {string} */
            side: "left" | "right";
            /** @description Visits that measured this rotor’s thickness. */
            readings: number;
            fitted: {
                date: string | null;
                odometerKm: number | null;
            } | null;
            latestDate: string | null;
            thinnestMm: number | null;
            discardMm: number | null;
            machineToMm: number | null;
            /** @description The thinnest point minus the discard thickness. */
            marginMm: number | null;
            marginStandardUncertaintyMm: number | null;
            /** @description Whether the latest reading is below the discard thickness, ignoring the gauge’s error. */
            fails: boolean | null;
            conformity: ("conforms" | "inconclusive" | "does-not-conform") | null;
            /** @description Chance that the part has not passed its discard thickness, given the gauge’s error and the scatter of repeats. */
            chanceOfConformity: number | null;
            /** @description The same chance, including the error of where the gauge was placed (0.02 mm). The forecast includes this error too. */
            chanceWithPlacement: number | null;
            variationMm: number | null;
            variationConformity: ("conforms" | "inconclusive" | "does-not-conform") | null;
            runoutMm: number | null;
            runoutConformity: ("conforms" | "inconclusive" | "does-not-conform") | null;
            ratePer1000KmMm: components["schemas"]["Range"] | null;
            /** @description When the rotor reaches its discard thickness. */
            date: components["schemas"]["DateInterval"] | null;
            untilNextVisit: components["schemas"]["UntilNextVisit"];
            marginAtPadReplacementMm: components["schemas"]["Range"] | null;
            marginAfterNextPadSetMm: components["schemas"]["Range"] | null;
            /** @enum {string} */
            decision: "keep" | "machine" | "replace" | "measure";
            decisionReasons: components["schemas"]["DecisionReason"][];
            reasons: components["schemas"]["Reason"][];
        };
        RowError: {
            /** @description The line on which the row begins, from 1. */
            line: number;
            /** @description The name of the column. Null if the error concerns the whole row. */
            column: string | null;
            detail: string;
            /** @description Stable, kebab-case. */
            code: string;
        };
        RuleSource: {
            title: string;
            section: string;
            /** @description Null if the text that was read names no edition. */
            edition: string | null;
            /** @description The month in which the source was read. */
            read: string;
            link: string;
        };
        /**
         * @example {
         *       "overlapHours": 24
         *     }
         */
        SecretRotationBody: {
            /**
             * @description How long the server also signs with the previous secret. 0 ends it at once.
             * @default 24
             */
            overlapHours?: number;
        };
        ServiceBody: {
            /** @enum {string} */
            kind: "slides-serviced" | "caliper-replaced" | "hose-replaced";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
        };
        ShoeThickness: {
            /** @constant */
            kind: "shoe-thickness";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @description Null for the thinnest lining of the axle. */
            side: ("left" | "right") | null;
            /**
             * @default thinnest
             * @enum {string}
             */
            shoe: "leading" | "trailing" | "thinnest";
            /**
             * @default thinnest
             * @enum {string}
             */
            at: "thinnest" | "leading" | "centre" | "trailing";
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            /**
             * @default as-found
             * @enum {string}
             */
            taken: "as-found" | "as-left";
            /** @description The name of a gauge in GET /v1/gauges. If missing, the server assumes a coarse gauge. */
            gauge?: string | null;
            /** @default 1 */
            repeat: number;
            id: string;
            mm: number;
        };
        /** @description Lining of a drum brake, without its shoe; riveted linings above the rivet head. If the reading does not name a shoe, it is the thinnest lining of that wheel or, without a side, of the axle. */
        ShoeThicknessBody: {
            /** @constant */
            kind: "shoe-thickness";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /**
             * @description Required unless the reading is of the thinnest lining. If it is missing there, the reading is the thinnest of the axle.
             * @default null
             */
            side?: ("left" | "right") | null;
            /**
             * @default thinnest
             * @enum {string}
             */
            shoe?: "leading" | "trailing" | "thinnest";
            /**
             * @default thinnest
             * @enum {string}
             */
            at?: "thinnest" | "leading" | "centre" | "trailing";
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            /**
             * @default as-found
             * @enum {string}
             */
            taken?: "as-found" | "as-left";
            /** @description The name of a gauge in GET /v1/gauges. If missing, the server assumes a coarse gauge. */
            gauge?: string | null;
            /** @default 1 */
            repeat?: number;
        };
        ShoesReplacedBody: {
            /** @constant */
            kind: "shoes-replaced";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
            new?: components["schemas"]["EnteredLength"] | null;
            limit?: components["schemas"]["EnteredLength"] | null;
            wearIndicator?: components["schemas"]["EnteredWearIndicator"] | null;
        };
        StopFinding: {
            code: string;
            side: ("left" | "right") | null;
            pad: ("inner" | "outer" | "leading" | "trailing" | "thinnest") | null;
        };
        StoppedAxle: {
            vehicleId: string;
            externalId: string | null;
            registration: string | null;
            fleet: string | null;
            model: string | null;
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            earlyDate: string | null;
            lastReadingDate: string | null;
            /** @description The codes of the stop findings. The wear answer has their messages. */
            stops: components["schemas"]["StopFinding"][];
        };
        Stops: {
            /** Format: date */
            today: string;
            /** @description The number of items on all pages. */
            total: number;
            items: components["schemas"]["StoppedAxle"][];
            nextCursor: string | null;
        };
        TestEvent: {
            /** @constant */
            type: "webhook.test";
            /**
             * Format: date-time
             * @description When the event happened. Every delivery attempt sends the same value.
             */
            timestamp: string;
            data: {
                endpointId: string;
                message: string;
            };
        };
        /** @description A torque as it was sent, and in newton metres. */
        Torque: {
            value: number;
            /** @enum {string} */
            unit: "Nm" | "ft-lbf";
            Nm: number;
        };
        TorqueBody: {
            fastener: string;
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            position?: number | null;
            value: number;
            /** @enum {string} */
            unit: "Nm" | "ft-lbf";
        };
        TorqueReading: {
            id: string;
            fastener: string;
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            position?: number | null;
            value: number;
            /** @enum {string} */
            unit: "Nm" | "ft-lbf";
            Nm: number;
        };
        TorqueSpec: {
            value: number;
            /** @enum {string} */
            unit: "Nm" | "ft-lbf";
            Nm: number;
            tolerance?: components["schemas"]["Torque"] | null;
        };
        Unassessed: {
            /** @description The number of items on all pages. */
            total: number;
            items: components["schemas"]["UnassessedAxle"][];
            nextCursor: string | null;
        };
        UnassessedAxle: {
            vehicleId: string;
            externalId: string | null;
            registration: string | null;
            fleet: string | null;
            model: string | null;
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            lastReadingDate: string | null;
            reason: components["schemas"]["Reason"];
        };
        /** @description Whether the part lasts until the vehicle’s next visit. */
        UntilNextVisit: {
            /** Format: date */
            date: string;
            /** @enum {string} */
            dateSource: "until" | "rhythm" | "policy";
            chanceLimitReached: number | null;
        };
        Usage: {
            kmPerDay: components["schemas"]["Range"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        Vehicle: {
            id: string;
            version: number;
            /** @description The vehicle’s number in the caller’s own system. It must be unique. */
            externalId?: string | null;
            registration?: string | null;
            vin?: string | null;
            description?: string | null;
            /** @description Vehicles of one model share learned wear rates. */
            model?: string | null;
            fleet?: string | null;
            powertrain?: ("combustion" | "hybrid" | "battery-electric" | "fuel-cell" | "none") | null;
            brakeSystem?: {
                regenerative?: boolean | null;
                brakeByWire?: boolean | null;
                electricParkingBrake?: boolean | null;
            } | null;
            outOfService?: {
                /**
                 * Format: date
                 * @description RFC 3339 full-date.
                 * @example 2026-03-02
                 */
                date: string;
                reason?: string | null;
            } | null;
            grossMass?: components["schemas"]["Mass"] | null;
            inService?: {
                date: string;
                odometer?: components["schemas"]["Distance"] | null;
            } | null;
            axles: {
                [key: string]: components["schemas"]["AxleSpec"];
            };
            /** @description The vehicle that this record was merged into. The visits are now there. */
            mergedInto?: string | null;
            /** @description When its personal data was erased. No further visits can be recorded. */
            erasedAt?: string | null;
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            updatedAt: string;
            warnings: components["schemas"]["Warning"][];
        };
        /**
         * @example {
         *       "externalId": "FD-1007",
         *       "registration": "KR 4471",
         *       "description": "long-wheelbase parcel van",
         *       "model": "parcel-van-3t5",
         *       "fleet": "north-depot",
         *       "powertrain": "combustion",
         *       "grossMass": {
         *         "value": 3500,
         *         "unit": "kg"
         *       },
         *       "brakeSystem": {
         *         "regenerative": false,
         *         "brakeByWire": false,
         *         "electricParkingBrake": true
         *       },
         *       "inService": {
         *         "date": "2023-05-04",
         *         "odometer": {
         *           "value": 12,
         *           "unit": "km"
         *         }
         *       },
         *       "axles": {
         *         "front": {
         *           "brake": "disc",
         *           "actuation": "hydraulic",
         *           "steered": true,
         *           "lining": "bonded",
         *           "pad": {
         *             "new": {
         *               "value": 11,
         *               "unit": "mm"
         *             },
         *             "limit": {
         *               "value": 2,
         *               "unit": "mm"
         *             },
         *             "wearIndicator": {
         *               "value": 3,
         *               "unit": "mm",
         *               "type": "mechanical"
         *             }
         *           },
         *           "rotor": {
         *             "new": {
         *               "value": 28,
         *               "unit": "mm"
         *             },
         *             "discard": {
         *               "value": 26,
         *               "unit": "mm"
         *             },
         *             "machineTo": {
         *               "value": 26.4,
         *               "unit": "mm"
         *             },
         *             "runoutLimit": {
         *               "value": 0.05,
         *               "unit": "mm"
         *             },
         *             "variationLimit": {
         *               "value": 0.02,
         *               "unit": "mm"
         *             }
         *           },
         *           "torque": {
         *             "caliper-bracket-bolt": {
         *               "value": 120,
         *               "unit": "Nm",
         *               "tolerance": {
         *                 "value": 10,
         *                 "unit": "Nm"
         *               }
         *             }
         *           }
         *         }
         *       }
         *     }
         */
        VehicleBody: {
            /** @description The vehicle’s number in the caller’s own system. It must be unique. */
            externalId?: string | null;
            registration?: string | null;
            vin?: string | null;
            description?: string | null;
            /** @description Vehicles of one model share learned wear rates. */
            model?: string | null;
            fleet?: string | null;
            powertrain?: ("combustion" | "hybrid" | "battery-electric" | "fuel-cell" | "none") | null;
            brakeSystem?: {
                regenerative?: boolean | null;
                brakeByWire?: boolean | null;
                electricParkingBrake?: boolean | null;
            } | null;
            outOfService?: {
                /**
                 * Format: date
                 * @description RFC 3339 full-date.
                 * @example 2026-03-02
                 */
                date: string;
                reason?: string | null;
            } | null;
            grossMass?: components["schemas"]["EnteredMass"] | null;
            /** @description The date on which the vehicle first went on the road, with its original parts. */
            inService?: {
                /**
                 * Format: date
                 * @description RFC 3339 full-date.
                 * @example 2026-03-02
                 */
                date: string;
                odometer?: components["schemas"]["EnteredDistance"] | null;
            } | null;
            axles: {
                [key: string]: components["schemas"]["EnteredAxle"];
            };
        };
        VehicleHistory: {
            items: components["schemas"]["VehicleVersion"][];
            /** @description Null on the last page. */
            nextCursor: string | null;
        };
        VehicleList: {
            items: components["schemas"]["Vehicle"][];
            /** @description Null on the last page. */
            nextCursor: string | null;
        };
        /** @description The rules that apply to each axle, or may apply. Of those that may, the strictest counts. */
        VehicleRules: {
            vehicleId: string;
            axles: {
                /** @enum {string} */
                axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                ruleSets: {
                    ruleSet: string;
                    chosen: boolean;
                    /** @enum {string} */
                    applies: "applies" | "could-apply" | "does-not-apply";
                    rules: {
                        ruleId: string;
                        /** @enum {string} */
                        applies: "applies" | "could-apply" | "does-not-apply";
                        /** @description The facts that decide whether the rule applies and that are unknown. */
                        unknown: ("brake" | "actuation" | "lining" | "steered" | "trailer" | "shoe-lining" | "wear-indicator-type")[];
                    }[];
                    reasons: components["schemas"]["Reason"][];
                }[];
            }[];
        };
        VehicleVersion: {
            version: number;
            /** @enum {string} */
            kind: "recorded" | "changed" | "merged" | "merged-into";
            /** Format: date-time */
            at: string;
            /** @description The name of the API key. Null for a command-line change, or for a version made before the server recorded versions. */
            by: string | null;
            reason: string | null;
            /**
             * Format: date
             * @description The date from which the change applies in answers with `asOf`. Null means that it applies to every date.
             */
            effectiveFrom: string | null;
            /** @description The other record, if this version comes from a merge. */
            mergedWith: string | null;
            /** @description The vehicle at this version, in the form of a VehicleBody. */
            body: components["schemas"]["VehicleBody"];
        };
        Visit: {
            id: string;
            version: number;
            vehicleId: string;
            /** Format: date */
            date: string;
            time?: string | null;
            odometer?: components["schemas"]["Distance"] | null;
            odometerReplaced?: {
                oldFinal?: components["schemas"]["Distance"] | null;
                newStart?: components["schemas"]["Distance"] | null;
            } | null;
            workOrder?: string | null;
            shop?: string | null;
            technician?: string | null;
            complaint?: string | null;
            notes?: string | null;
            readings: components["schemas"]["Reading"][];
            notMeasured: components["schemas"]["NotMeasuredBody"][];
            conditions: components["schemas"]["ConditionBody"][];
            work: components["schemas"]["WorkItem"][];
            torques: components["schemas"]["TorqueReading"][];
            roadTest?: components["schemas"]["RoadTest"] | null;
            voided?: components["schemas"]["Voided"] | null;
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            updatedAt: string;
        };
        /**
         * @example {
         *       "date": "2026-03-02",
         *       "time": "08:10",
         *       "odometer": {
         *         "value": 61240,
         *         "unit": "km"
         *       },
         *       "workOrder": "WO-20817",
         *       "technician": "T4",
         *       "readings": [
         *         {
         *           "kind": "pad-thickness",
         *           "axle": "front",
         *           "side": "left",
         *           "pad": "inner",
         *           "value": 6.5,
         *           "unit": "mm",
         *           "gauge": "pad-gauge"
         *         },
         *         {
         *           "kind": "pad-thickness",
         *           "axle": "front",
         *           "side": "left",
         *           "pad": "outer",
         *           "value": 7,
         *           "unit": "mm",
         *           "gauge": "pad-gauge"
         *         },
         *         {
         *           "kind": "pad-thickness",
         *           "axle": "front",
         *           "side": "right",
         *           "pad": "outer",
         *           "value": 7,
         *           "unit": "mm",
         *           "gauge": "pad-gauge"
         *         },
         *         {
         *           "kind": "rotor-thickness",
         *           "axle": "front",
         *           "side": "left",
         *           "point": 1,
         *           "value": 1.081,
         *           "unit": "in",
         *           "gauge": "micrometer"
         *         },
         *         {
         *           "kind": "rotor-runout",
         *           "axle": "front",
         *           "side": "left",
         *           "value": 0.0015,
         *           "unit": "in",
         *           "gauge": "dial-indicator"
         *         }
         *       ],
         *       "notMeasured": [
         *         {
         *           "axle": "front",
         *           "side": "right",
         *           "pad": "inner",
         *           "why": "wheel not removed"
         *         }
         *       ],
         *       "torques": [
         *         {
         *           "fastener": "caliper-bracket-bolt",
         *           "axle": "front",
         *           "side": "left",
         *           "position": 1,
         *           "value": 88,
         *           "unit": "ft-lbf"
         *         }
         *       ],
         *       "roadTest": {
         *         "pulls": "none",
         *         "pulsation": false,
         *         "noise": false
         *       }
         *     }
         */
        VisitBody: {
            /**
             * Format: date
             * @description RFC 3339 full-date.
             * @example 2026-03-02
             */
            date: string;
            time?: string | null;
            /** @description If missing or null, this visit gives no distance and no wear rate. */
            odometer?: components["schemas"]["EnteredDistance"] | null;
            /** @description Send this if the odometer was replaced. `odometer` is then the new odometer’s reading, and the server checks later readings against it. */
            odometerReplaced?: {
                oldFinal?: components["schemas"]["EnteredDistance"] | null;
                newStart?: components["schemas"]["EnteredDistance"] | null;
            } | null;
            /** @description The work order number, unique per vehicle and shop. */
            workOrder?: string | null;
            shop?: string | null;
            technician?: string | null;
            complaint?: string | null;
            notes?: string | null;
            readings?: components["schemas"]["ReadingBody"][] | null;
            notMeasured?: components["schemas"]["NotMeasuredBody"][] | null;
            conditions?: components["schemas"]["ConditionBody"][] | null;
            work?: components["schemas"]["WorkBody"][] | null;
            torques?: components["schemas"]["TorqueBody"][] | null;
            roadTest?: components["schemas"]["RoadTest"] | null;
        };
        VisitHistory: {
            items: components["schemas"]["VisitVersion"][];
            /** @description Null on the last page. */
            nextCursor: string | null;
        };
        VisitList: {
            items: components["schemas"]["Visit"][];
            /** @description Null on the last page. */
            nextCursor: string | null;
        };
        VisitVersion: {
            version: number;
            /** @enum {string} */
            kind: "recorded" | "entries-added" | "corrected" | "voided" | "restored" | "moved";
            /** Format: date-time */
            at: string;
            /** @description The name of the API key. Null for a command-line change, or for a version made before the server recorded versions. */
            by: string | null;
            reason: string | null;
            vehicleId: string;
            /** @description The visit at this version, in the form of a VisitBody. */
            body: components["schemas"]["VisitBody"];
        };
        /** @description A voided visit does not count in any forecast or report, but it can still be read. */
        Voided: {
            /** Format: date-time */
            at: string;
            /** @description The name of the API key. */
            by: string | null;
            reason: string;
        };
        /** @description A value that the server accepted but that may be a mistake. */
        Warning: {
            code: string;
            detail: string;
            pointer: string;
        };
        Wear: {
            vehicleId: string;
            usage: components["schemas"]["Usage"];
            asAt: components["schemas"]["AsAt"] | null;
            axles: components["schemas"]["AxleWear"][];
            cautions: components["schemas"]["Caution"][];
            reasons: components["schemas"]["Reason"][];
        };
        /** @description The pad thickness at which the wear indicator sounds or lights. */
        WearIndicator: {
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            mm: number;
            type?: ("mechanical" | "electric" | "mark") | null;
        };
        WebhookDelivery: {
            id: string;
            version: number;
            endpointId: string;
            /** @description The `webhook-id` header: one per event, the same at every attempt and replay. */
            webhookId: string;
            /** @enum {string} */
            type: "axle.due" | "limit.passed" | "reading.off_forecast" | "webhook.test";
            /** @enum {string} */
            status: "pending" | "delivered" | "given-up";
            /** @description The latest 20 attempts, earliest first. */
            attempts: components["schemas"]["DeliveryAttempt"][];
            nextAttemptAt: string | null;
            deliveredAt: string | null;
            /** Format: date-time */
            createdAt: string;
            event: components["schemas"]["WebhookEvent"];
        };
        WebhookDeliveryList: {
            items: components["schemas"]["WebhookDelivery"][];
            /** @description Null on the last page. */
            nextCursor: string | null;
        };
        WebhookEndpoint: {
            id: string;
            version: number;
            url: string;
            eventTypes: ("axle.due" | "limit.passed" | "reading.off_forecast")[] | null;
            fleets: string[] | null;
            enabled: boolean;
            /** @description Why the server disabled the endpoint. Null if it did not. */
            disabledBecause: string | null;
            /** @description The server also signs with the previous secret until then. Null if it does not. */
            previousSecretUntil: string | null;
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            updatedAt: string;
        };
        /**
         * @example {
         *       "url": "https://desk.example.com/hooks/brakes",
         *       "eventTypes": [
         *         "axle.due",
         *         "limit.passed"
         *       ],
         *       "fleets": [
         *         "north-depot"
         *       ]
         *     }
         */
        WebhookEndpointBody: {
            /** @description The address to which the server posts events. It must be https and public, without a user name or password, unless the server’s settings allow private addresses. */
            url: string;
            /**
             * @description The event types to send. Null sends all.
             * @default null
             */
            eventTypes?: ("axle.due" | "limit.passed" | "reading.off_forecast")[] | null;
            /**
             * @description Send only events of vehicles in these fleets. Null sends events of every vehicle.
             * @default null
             */
            fleets?: string[] | null;
            /**
             * @description If false, the server raises no events for this endpoint, and pending deliveries wait.
             * @default true
             */
            enabled?: boolean;
        };
        WebhookEndpointList: {
            items: components["schemas"]["WebhookEndpoint"][];
            nextCursor: null;
        };
        WebhookEndpointWithSecret: {
            id: string;
            version: number;
            url: string;
            eventTypes: ("axle.due" | "limit.passed" | "reading.off_forecast")[] | null;
            fleets: string[] | null;
            enabled: boolean;
            /** @description Why the server disabled the endpoint. Null if it did not. */
            disabledBecause: string | null;
            /** @description The server also signs with the previous secret until then. Null if it does not. */
            previousSecretUntil: string | null;
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            updatedAt: string;
            /** @description `whsec_` and the key in base64. It is shown only in this answer. */
            secret: string;
        };
        /** @description The body of a webhook. */
        WebhookEvent: components["schemas"]["AxleDueEvent"] | components["schemas"]["LimitPassedEvent"] | components["schemas"]["OffForecastEvent"] | components["schemas"]["TestEvent"];
        /** @description What was done: pads-replaced, rotor-replaced, rotor-machined, shoes-replaced, drum-replaced, drum-machined, slides-serviced, caliper-replaced, fluid-changed, hose-replaced. A missing side means both. */
        WorkBody: components["schemas"]["PadsReplacedBody"] | components["schemas"]["RotorReplacedBody"] | components["schemas"]["RotorMachinedBody"] | components["schemas"]["ShoesReplacedBody"] | components["schemas"]["DrumReplacedBody"] | components["schemas"]["DrumMachinedBody"] | components["schemas"]["ServiceBody"] | components["schemas"]["FluidChangedBody"];
        WorkItem: {
            id: string;
            /** @enum {string} */
            kind: "pads-replaced" | "rotor-replaced" | "rotor-machined" | "shoes-replaced" | "drum-replaced" | "drum-machined" | "slides-serviced" | "caliper-replaced" | "fluid-changed" | "hose-replaced";
            axle?: ("front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9") | null;
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
            new?: components["schemas"]["Length"] | null;
            limit?: components["schemas"]["Length"] | null;
            wearIndicator?: components["schemas"]["WearIndicator"] | null;
            discard?: components["schemas"]["Length"] | null;
            maximum?: components["schemas"]["Length"] | null;
            machineTo?: components["schemas"]["Length"] | null;
            runoutLimit?: components["schemas"]["Length"] | null;
            variationLimit?: components["schemas"]["Length"] | null;
        };
    };
    responses: never;
    parameters: never;
    requestBodies: never;
    headers: never;
    pathItems: never;
}
export type $defs = Record<string, never>;
export interface operations {
    getLiveness: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The process is running. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "status": "ok"
                     *     }
                     */
                    "application/json": components["schemas"]["Health"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getReadiness: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The server is ready. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "status": "ok"
                     *     }
                     */
                    "application/json": components["schemas"]["Health"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getCalendar: {
        parameters: {
            query?: never;
            header?: {
                /** @description An ETag. The server answers 304 if nothing has changed since. */
                "If-None-Match"?: string;
            };
            path: {
                /** @description The secret token from the calendar’s address. */
                token: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The calendar. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example BEGIN:VCALENDAR
                     *     VERSION:2.0
                     *     PRODID:-//brake-wear//due-soon//EN
                     *     METHOD:PUBLISH
                     *     NAME:Brakes due soon\, north-depot
                     *     X-WR-CALNAME:Brakes due soon\, north-depot
                     *     REFRESH-INTERVAL;VALUE=DURATION:PT6H
                     *     X-PUBLISHED-TTL:PT6H
                     *     BEGIN:VEVENT
                     *     UID:0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001-front
                     *     SEQUENCE:194606100
                     *     DTSTAMP:20260305T060000Z
                     *     DTSTART;VALUE=DATE:20260411
                     *     X-MICROSOFT-CDO-ALLDAYEVENT:TRUE
                     *     X-MICROSOFT-MSNCALENDAR-ALLDAYEVENT:TRUE
                     *     SUMMARY:KR 4471 (FD-1007): fit front pads
                     *     TRANSP:TRANSPARENT
                     *     DESCRIPTION:Fit front pads before 11 April 2026.\nThe first of the pads may
                     *       reach its limit from the early date on.\nEarly date (1 chance in 10 by th
                     *      en): 11 April 2026\nMedian date (1 in 2): 23 May 2026\nLate date (9 in 10)
                     *      : 19 July 2026\nChance by 4 May 2026: 31 %\nLikely the first: left inner\n
                     *      Limit: 3 mm (wear indicator)\nLast reading: 2 March 2026\nFleet: north-dep
                     *      ot\; model: parcel-van-3t5\n\nA date is a forecast from few and coarse rea
                     *      dings\; a driver\, a route or a seized slide can change it within days. Lo
                     *      ok at the brakes.\nThese figures support a decision but do not make it. Th
                     *      e maker’s instructions\, local law and licensed practice come first\, an
                     *      d no answer here says that a vehicle is fit to drive.
                     *     END:VEVENT
                     *     END:VCALENDAR
                     */
                    "text/calendar": string;
                };
            };
            /** @description The caller already has this version. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listVehicles: {
        parameters: {
            query?: {
                /** @description Part of a registration, VIN or externalId. Case, spaces and punctuation are ignored. */
                find?: string;
                /** @description Only vehicles with this registration. Case, spaces and punctuation are ignored: `kr-4471` finds `KR 4471`. */
                registration?: string;
                /** @description Only the vehicle with this vehicle identification number. */
                vin?: string;
                /** @description Only the vehicle with this externalId. */
                externalId?: string;
                /** @description Only vehicles of this fleet. */
                fleet?: string;
                /** @description Only vehicles of this model. */
                model?: string;
                /** @description Also lists vehicles out of service. */
                includeOutOfService?: boolean;
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description A page of vehicles. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *           "version": 1,
                     *           "externalId": "FD-1007",
                     *           "registration": "KR 4471",
                     *           "vin": null,
                     *           "description": "long-wheelbase parcel van",
                     *           "model": "parcel-van-3t5",
                     *           "fleet": "north-depot",
                     *           "powertrain": "combustion",
                     *           "grossMass": {
                     *             "value": 3500,
                     *             "unit": "kg",
                     *             "kg": 3500
                     *           },
                     *           "brakeSystem": {
                     *             "regenerative": false,
                     *             "brakeByWire": false,
                     *             "electricParkingBrake": true
                     *           },
                     *           "inService": {
                     *             "date": "2023-05-04",
                     *             "odometer": {
                     *               "value": 12,
                     *               "unit": "km",
                     *               "km": 12
                     *             }
                     *           },
                     *           "outOfService": null,
                     *           "axles": {
                     *             "front": {
                     *               "brake": "disc",
                     *               "actuation": "hydraulic",
                     *               "steered": true,
                     *               "lining": "bonded",
                     *               "pad": {
                     *                 "new": {
                     *                   "value": 11,
                     *                   "unit": "mm",
                     *                   "mm": 11
                     *                 },
                     *                 "limit": {
                     *                   "value": 2,
                     *                   "unit": "mm",
                     *                   "mm": 2
                     *                 },
                     *                 "wearIndicator": {
                     *                   "value": 3,
                     *                   "unit": "mm",
                     *                   "type": "mechanical",
                     *                   "mm": 3
                     *                 }
                     *               },
                     *               "rotor": {
                     *                 "new": {
                     *                   "value": 28,
                     *                   "unit": "mm",
                     *                   "mm": 28
                     *                 },
                     *                 "discard": {
                     *                   "value": 26,
                     *                   "unit": "mm",
                     *                   "mm": 26
                     *                 },
                     *                 "machineTo": {
                     *                   "value": 26.4,
                     *                   "unit": "mm",
                     *                   "mm": 26.4
                     *                 },
                     *                 "runoutLimit": {
                     *                   "value": 0.05,
                     *                   "unit": "mm",
                     *                   "mm": 0.05
                     *                 },
                     *                 "variationLimit": {
                     *                   "value": 0.02,
                     *                   "unit": "mm",
                     *                   "mm": 0.02
                     *                 }
                     *               },
                     *               "torque": {
                     *                 "caliper-bracket-bolt": {
                     *                   "value": 120,
                     *                   "unit": "Nm",
                     *                   "tolerance": {
                     *                     "value": 10,
                     *                     "unit": "Nm",
                     *                     "Nm": 10
                     *                   },
                     *                   "Nm": 120
                     *                 }
                     *               }
                     *             }
                     *           },
                     *           "mergedInto": null,
                     *           "erasedAt": null,
                     *           "createdAt": "2026-03-02T09:15:00.000Z",
                     *           "updatedAt": "2026-03-02T09:15:00.000Z",
                     *           "warnings": []
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["VehicleList"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    recordVehicle: {
        parameters: {
            query?: never;
            header?: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["VehicleBody"];
            };
        };
        responses: {
            /** @description The stored vehicle. */
            201: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *       "version": 1,
                     *       "externalId": "FD-1007",
                     *       "registration": "KR 4471",
                     *       "vin": null,
                     *       "description": "long-wheelbase parcel van",
                     *       "model": "parcel-van-3t5",
                     *       "fleet": "north-depot",
                     *       "powertrain": "combustion",
                     *       "grossMass": {
                     *         "value": 3500,
                     *         "unit": "kg",
                     *         "kg": 3500
                     *       },
                     *       "brakeSystem": {
                     *         "regenerative": false,
                     *         "brakeByWire": false,
                     *         "electricParkingBrake": true
                     *       },
                     *       "inService": {
                     *         "date": "2023-05-04",
                     *         "odometer": {
                     *           "value": 12,
                     *           "unit": "km",
                     *           "km": 12
                     *         }
                     *       },
                     *       "outOfService": null,
                     *       "axles": {
                     *         "front": {
                     *           "brake": "disc",
                     *           "actuation": "hydraulic",
                     *           "steered": true,
                     *           "lining": "bonded",
                     *           "pad": {
                     *             "new": {
                     *               "value": 11,
                     *               "unit": "mm",
                     *               "mm": 11
                     *             },
                     *             "limit": {
                     *               "value": 2,
                     *               "unit": "mm",
                     *               "mm": 2
                     *             },
                     *             "wearIndicator": {
                     *               "value": 3,
                     *               "unit": "mm",
                     *               "type": "mechanical",
                     *               "mm": 3
                     *             }
                     *           },
                     *           "rotor": {
                     *             "new": {
                     *               "value": 28,
                     *               "unit": "mm",
                     *               "mm": 28
                     *             },
                     *             "discard": {
                     *               "value": 26,
                     *               "unit": "mm",
                     *               "mm": 26
                     *             },
                     *             "machineTo": {
                     *               "value": 26.4,
                     *               "unit": "mm",
                     *               "mm": 26.4
                     *             },
                     *             "runoutLimit": {
                     *               "value": 0.05,
                     *               "unit": "mm",
                     *               "mm": 0.05
                     *             },
                     *             "variationLimit": {
                     *               "value": 0.02,
                     *               "unit": "mm",
                     *               "mm": 0.02
                     *             }
                     *           },
                     *           "torque": {
                     *             "caliper-bracket-bolt": {
                     *               "value": 120,
                     *               "unit": "Nm",
                     *               "tolerance": {
                     *                 "value": 10,
                     *                 "unit": "Nm",
                     *                 "Nm": 10
                     *               },
                     *               "Nm": 120
                     *             }
                     *           }
                     *         }
                     *       },
                     *       "mergedInto": null,
                     *       "erasedAt": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "warnings": []
                     *     }
                     */
                    "application/json": components["schemas"]["Vehicle"];
                };
            };
            /** @description The request cannot be read (`malformed-request`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The vehicle is already recorded (`duplicate-vehicle`); A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`); The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getVehicle: {
        parameters: {
            query?: never;
            header?: {
                /** @description An ETag. The server answers 304 if nothing has changed since. */
                "If-None-Match"?: string;
            };
            path: {
                /** @description The `id` of a vehicle. */
                vehicleId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The vehicle. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *       "version": 1,
                     *       "externalId": "FD-1007",
                     *       "registration": "KR 4471",
                     *       "vin": null,
                     *       "description": "long-wheelbase parcel van",
                     *       "model": "parcel-van-3t5",
                     *       "fleet": "north-depot",
                     *       "powertrain": "combustion",
                     *       "grossMass": {
                     *         "value": 3500,
                     *         "unit": "kg",
                     *         "kg": 3500
                     *       },
                     *       "brakeSystem": {
                     *         "regenerative": false,
                     *         "brakeByWire": false,
                     *         "electricParkingBrake": true
                     *       },
                     *       "inService": {
                     *         "date": "2023-05-04",
                     *         "odometer": {
                     *           "value": 12,
                     *           "unit": "km",
                     *           "km": 12
                     *         }
                     *       },
                     *       "outOfService": null,
                     *       "axles": {
                     *         "front": {
                     *           "brake": "disc",
                     *           "actuation": "hydraulic",
                     *           "steered": true,
                     *           "lining": "bonded",
                     *           "pad": {
                     *             "new": {
                     *               "value": 11,
                     *               "unit": "mm",
                     *               "mm": 11
                     *             },
                     *             "limit": {
                     *               "value": 2,
                     *               "unit": "mm",
                     *               "mm": 2
                     *             },
                     *             "wearIndicator": {
                     *               "value": 3,
                     *               "unit": "mm",
                     *               "type": "mechanical",
                     *               "mm": 3
                     *             }
                     *           },
                     *           "rotor": {
                     *             "new": {
                     *               "value": 28,
                     *               "unit": "mm",
                     *               "mm": 28
                     *             },
                     *             "discard": {
                     *               "value": 26,
                     *               "unit": "mm",
                     *               "mm": 26
                     *             },
                     *             "machineTo": {
                     *               "value": 26.4,
                     *               "unit": "mm",
                     *               "mm": 26.4
                     *             },
                     *             "runoutLimit": {
                     *               "value": 0.05,
                     *               "unit": "mm",
                     *               "mm": 0.05
                     *             },
                     *             "variationLimit": {
                     *               "value": 0.02,
                     *               "unit": "mm",
                     *               "mm": 0.02
                     *             }
                     *           },
                     *           "torque": {
                     *             "caliper-bracket-bolt": {
                     *               "value": 120,
                     *               "unit": "Nm",
                     *               "tolerance": {
                     *                 "value": 10,
                     *                 "unit": "Nm",
                     *                 "Nm": 10
                     *               },
                     *               "Nm": 120
                     *             }
                     *           }
                     *         }
                     *       },
                     *       "mergedInto": null,
                     *       "erasedAt": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "warnings": []
                     *     }
                     */
                    "application/json": components["schemas"]["Vehicle"];
                };
            };
            /** @description The caller already has this version. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    changeVehicle: {
        parameters: {
            query?: {
                /** @description The date from which the change holds. It must not be in the future. If missing, today. */
                effectiveFrom?: string;
            };
            header: {
                /** @description The ETag of the version to change. */
                "If-Match": string;
            };
            path: {
                /** @description The `id` of a vehicle. */
                vehicleId: string;
            };
            cookie?: never;
        };
        /** @description Any part of a VehicleBody. */
        requestBody: {
            content: {
                /**
                 * @example {
                 *       "outOfService": {
                 *         "date": "2026-05-01",
                 *         "reason": "sold"
                 *       }
                 *     }
                 */
                "application/merge-patch+json": {
                    [key: string]: unknown;
                };
            };
        };
        responses: {
            /** @description The changed vehicle. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *       "version": 2,
                     *       "externalId": "FD-1007",
                     *       "registration": "KR 4471",
                     *       "vin": null,
                     *       "description": "long-wheelbase parcel van",
                     *       "model": "parcel-van-3t5",
                     *       "fleet": "north-depot",
                     *       "powertrain": "combustion",
                     *       "grossMass": {
                     *         "value": 3500,
                     *         "unit": "kg",
                     *         "kg": 3500
                     *       },
                     *       "brakeSystem": {
                     *         "regenerative": false,
                     *         "brakeByWire": false,
                     *         "electricParkingBrake": true
                     *       },
                     *       "inService": {
                     *         "date": "2023-05-04",
                     *         "odometer": {
                     *           "value": 12,
                     *           "unit": "km",
                     *           "km": 12
                     *         }
                     *       },
                     *       "outOfService": null,
                     *       "axles": {
                     *         "front": {
                     *           "brake": "disc",
                     *           "actuation": "hydraulic",
                     *           "steered": true,
                     *           "lining": "bonded",
                     *           "pad": {
                     *             "new": {
                     *               "value": 11,
                     *               "unit": "mm",
                     *               "mm": 11
                     *             },
                     *             "limit": {
                     *               "value": 2,
                     *               "unit": "mm",
                     *               "mm": 2
                     *             },
                     *             "wearIndicator": {
                     *               "value": 3,
                     *               "unit": "mm",
                     *               "type": "mechanical",
                     *               "mm": 3
                     *             }
                     *           },
                     *           "rotor": {
                     *             "new": {
                     *               "value": 28,
                     *               "unit": "mm",
                     *               "mm": 28
                     *             },
                     *             "discard": {
                     *               "value": 26,
                     *               "unit": "mm",
                     *               "mm": 26
                     *             },
                     *             "machineTo": {
                     *               "value": 26.4,
                     *               "unit": "mm",
                     *               "mm": 26.4
                     *             },
                     *             "runoutLimit": {
                     *               "value": 0.05,
                     *               "unit": "mm",
                     *               "mm": 0.05
                     *             },
                     *             "variationLimit": {
                     *               "value": 0.02,
                     *               "unit": "mm",
                     *               "mm": 0.02
                     *             }
                     *           },
                     *           "torque": {
                     *             "caliper-bracket-bolt": {
                     *               "value": 120,
                     *               "unit": "Nm",
                     *               "tolerance": {
                     *                 "value": 10,
                     *                 "unit": "Nm",
                     *                 "Nm": 10
                     *               },
                     *               "Nm": 120
                     *             }
                     *           }
                     *         }
                     *       },
                     *       "mergedInto": null,
                     *       "erasedAt": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "warnings": []
                     *     }
                     */
                    "application/json": components["schemas"]["Vehicle"];
                };
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The personal data of the vehicle was erased (`vehicle-erased`); The vehicle is already recorded (`duplicate-vehicle`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The resource has changed since it was read (`stale-version`) */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description If-Match is needed (`precondition-needed`) */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listVisits: {
        parameters: {
            query?: {
                /** @description Also lists voided visits. */
                includeVoided?: boolean;
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path: {
                /** @description The `id` of a vehicle. */
                vehicleId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description A page of visits. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002",
                     *           "version": 1,
                     *           "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *           "date": "2026-03-02",
                     *           "time": "08:10",
                     *           "odometer": {
                     *             "value": 61240,
                     *             "unit": "km",
                     *             "km": 61240
                     *           },
                     *           "workOrder": "WO-20817",
                     *           "technician": "T4",
                     *           "readings": [
                     *             {
                     *               "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r1",
                     *               "kind": "pad-thickness",
                     *               "axle": "front",
                     *               "side": "left",
                     *               "pad": "inner",
                     *               "at": "thinnest",
                     *               "value": 6.5,
                     *               "unit": "mm",
                     *               "taken": "as-found",
                     *               "gauge": "pad-gauge",
                     *               "repeat": 1,
                     *               "mm": 6.5
                     *             },
                     *             {
                     *               "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r2",
                     *               "kind": "pad-thickness",
                     *               "axle": "front",
                     *               "side": "left",
                     *               "pad": "outer",
                     *               "at": "thinnest",
                     *               "value": 7,
                     *               "unit": "mm",
                     *               "taken": "as-found",
                     *               "gauge": "pad-gauge",
                     *               "repeat": 1,
                     *               "mm": 7
                     *             },
                     *             {
                     *               "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r3",
                     *               "kind": "pad-thickness",
                     *               "axle": "front",
                     *               "side": "right",
                     *               "pad": "outer",
                     *               "at": "thinnest",
                     *               "value": 7,
                     *               "unit": "mm",
                     *               "taken": "as-found",
                     *               "gauge": "pad-gauge",
                     *               "repeat": 1,
                     *               "mm": 7
                     *             },
                     *             {
                     *               "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r4",
                     *               "kind": "rotor-thickness",
                     *               "axle": "front",
                     *               "side": "left",
                     *               "point": 1,
                     *               "value": 1.081,
                     *               "unit": "in",
                     *               "taken": "as-found",
                     *               "gauge": "micrometer",
                     *               "repeat": 1,
                     *               "mm": 27.4574
                     *             },
                     *             {
                     *               "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r5",
                     *               "kind": "rotor-runout",
                     *               "axle": "front",
                     *               "side": "left",
                     *               "value": 0.0015,
                     *               "unit": "in",
                     *               "taken": "as-found",
                     *               "gauge": "dial-indicator",
                     *               "repeat": 1,
                     *               "mm": 0.0381
                     *             }
                     *           ],
                     *           "notMeasured": [
                     *             {
                     *               "axle": "front",
                     *               "side": "right",
                     *               "pad": "inner",
                     *               "why": "wheel not removed"
                     *             }
                     *           ],
                     *           "torques": [
                     *             {
                     *               "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-t1",
                     *               "fastener": "caliper-bracket-bolt",
                     *               "axle": "front",
                     *               "side": "left",
                     *               "position": 1,
                     *               "value": 88,
                     *               "unit": "ft-lbf",
                     *               "Nm": 119.31197945316323
                     *             }
                     *           ],
                     *           "roadTest": {
                     *             "pulls": "none",
                     *             "pulsation": false,
                     *             "noise": false
                     *           },
                     *           "conditions": [],
                     *           "work": [],
                     *           "voided": null,
                     *           "createdAt": "2026-03-02T09:15:00.000Z",
                     *           "updatedAt": "2026-03-02T09:15:00.000Z"
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["VisitList"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    recordVisit: {
        parameters: {
            query?: never;
            header?: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
            };
            path: {
                /** @description The `id` of a vehicle. */
                vehicleId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["VisitBody"];
            };
        };
        responses: {
            /** @description The work order is already recorded with the same content. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002",
                     *       "version": 1,
                     *       "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *       "date": "2026-03-02",
                     *       "time": "08:10",
                     *       "odometer": {
                     *         "value": 61240,
                     *         "unit": "km",
                     *         "km": 61240
                     *       },
                     *       "workOrder": "WO-20817",
                     *       "technician": "T4",
                     *       "readings": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r1",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "pad": "inner",
                     *           "at": "thinnest",
                     *           "value": 6.5,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 6.5
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r2",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "pad": "outer",
                     *           "at": "thinnest",
                     *           "value": 7,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 7
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r3",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "outer",
                     *           "at": "thinnest",
                     *           "value": 7,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 7
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r4",
                     *           "kind": "rotor-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "point": 1,
                     *           "value": 1.081,
                     *           "unit": "in",
                     *           "taken": "as-found",
                     *           "gauge": "micrometer",
                     *           "repeat": 1,
                     *           "mm": 27.4574
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r5",
                     *           "kind": "rotor-runout",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "value": 0.0015,
                     *           "unit": "in",
                     *           "taken": "as-found",
                     *           "gauge": "dial-indicator",
                     *           "repeat": 1,
                     *           "mm": 0.0381
                     *         }
                     *       ],
                     *       "notMeasured": [
                     *         {
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "inner",
                     *           "why": "wheel not removed"
                     *         }
                     *       ],
                     *       "torques": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-t1",
                     *           "fastener": "caliper-bracket-bolt",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "position": 1,
                     *           "value": 88,
                     *           "unit": "ft-lbf",
                     *           "Nm": 119.31197945316323
                     *         }
                     *       ],
                     *       "roadTest": {
                     *         "pulls": "none",
                     *         "pulsation": false,
                     *         "noise": false
                     *       },
                     *       "conditions": [],
                     *       "work": [],
                     *       "voided": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "findings": [
                     *         {
                     *           "code": "position-never-measured",
                     *           "axle": "front",
                     *           "side": null,
                     *           "pad": null,
                     *           "severity": "note",
                     *           "message": "Never measured on this axle: right inner pad. Its forecast is based on the other linings.",
                     *           "check": "Measure every lining of this axle at its thinnest point.",
                     *           "numbers": {
                     *             "positions": 1
                     *           }
                     *         },
                     *         {
                     *           "code": "not-measured",
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "inner",
                     *           "severity": "note",
                     *           "message": "Right inner lining was not measured on 2026-03-02: wheel not removed. No earlier reading of it is known either.",
                     *           "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *           "numbers": {}
                     *         }
                     *       ],
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision but do not make it. The maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Treat brake dust as harmful. Clean it wet or with an enclosed vacuum; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque to the maker’s figure. Build up pedal pressure before the wheels turn. Bed in new parts, and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself. Put it into its service mode before you touch its calipers.",
                     *           "source": "common practice, no source"
                     *         }
                     *       ],
                     *       "outlook": {
                     *         "front": {
                     *           "axle": "front",
                     *           "advice": {
                     *             "action": "fit-before",
                     *             "part": "pads",
                     *             "by": "2026-05-04",
                     *             "words": "Fit front pads before 4 May 2026.",
                     *             "why": "Right inner not measured yet, limit 3 mm (wear indicator). 44 % chance of reaching it by the next visit, about 31 August 2026.",
                     *             "rotors": "Rotors: measure the right.",
                     *             "checks": 0,
                     *             "check": null,
                     *             "status": "due before the next visit",
                     *             "urgency": "soon"
                     *           },
                     *           "pads": [
                     *             {
                     *               "side": "left",
                     *               "pad": "inner",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 6.5,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.16076,
                     *                 "median": 0.23264,
                     *                 "high": 0.59061
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.19,
                     *                 "median": 3.526,
                     *                 "high": 3.86
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             },
                     *             {
                     *               "side": "left",
                     *               "pad": "outer",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 7,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14477,
                     *                 "median": 0.21013,
                     *                 "high": 0.53161
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.652,
                     *                 "median": 3.986,
                     *                 "high": 4.318
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             },
                     *             {
                     *               "side": "right",
                     *               "pad": "inner",
                     *               "readings": 0,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14931,
                     *                 "median": 0.23568,
                     *                 "high": 0.59748
                     *               },
                     *               "remainingMm": {
                     *                 "low": 2.375,
                     *                 "median": 3.637,
                     *                 "high": 4.723
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": null,
                     *                   "conformity": null,
                     *                   "chanceOfConformity": null,
                     *                   "chanceWithPlacement": null,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": null,
                     *                   "conformity": null,
                     *                   "chanceOfConformity": null,
                     *                   "chanceWithPlacement": null,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latest",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 }
                     *               ]
                     *             },
                     *             {
                     *               "side": "right",
                     *               "pad": "outer",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 7,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14477,
                     *                 "median": 0.21013,
                     *                 "high": 0.53161
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.652,
                     *                 "median": 3.986,
                     *                 "high": 4.318
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             }
                     *           ],
                     *           "replacement": {
                     *             "governingPad": {
                     *               "side": "right",
                     *               "pad": "inner"
                     *             },
                     *             "limitMm": 3,
                     *             "distanceKm": {
                     *               "early": 4025.2,
                     *               "lowerQuartile": 7080.9,
                     *               "median": 11579,
                     *               "upperQuartile": 16516.6,
                     *               "late": 20934.9
                     *             },
                     *             "date": {
                     *               "early": "2026-05-04",
                     *               "lowerQuartile": "2026-06-27",
                     *               "median": "2026-09-20",
                     *               "upperQuartile": "2027-01-02",
                     *               "late": "2027-05-08"
                     *             },
                     *             "overdue": false,
                     *             "basis": {
                     *               "readings": 3,
                     *               "experience": "starting-values",
                     *               "set": "unknown",
                     *               "words": "3 readings of these pads, whose fitting is not known, and typical starting values, because the shop has no learned experience yet."
                     *             },
                     *             "untilNextVisit": {
                     *               "date": "2026-08-31",
                     *               "dateSource": "policy",
                     *               "chanceLimitReached": 0.4423
                     *             },
                     *             "reasons": [
                     *               {
                     *                 "field": "governingPad",
                     *                 "code": "governing-pad-not-measured",
                     *                 "detail": "right inner was never measured; it is assumed to wear like the others"
                     *               }
                     *             ]
                     *           },
                     *           "rotors": [
                     *             {
                     *               "side": "left",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latestDate": "2026-03-02",
                     *               "thinnestMm": 27.4574,
                     *               "discardMm": 26,
                     *               "machineToMm": 26.4,
                     *               "marginMm": 1.4574,
                     *               "marginStandardUncertaintyMm": 0.002887,
                     *               "fails": false,
                     *               "conformity": "conforms",
                     *               "chanceOfConformity": 1,
                     *               "chanceWithPlacement": 1,
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": 0.0381,
                     *               "runoutConformity": "conforms",
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00636,
                     *                 "median": 0.00987,
                     *                 "high": 0.03291
                     *               },
                     *               "date": {
                     *                 "early": "2028-03-22",
                     *                 "lowerQuartile": "2030-09-04",
                     *                 "median": "2032-12-27",
                     *                 "upperQuartile": "2035-08-22",
                     *                 "late": "2039-04-26"
                     *               },
                     *               "marginAtPadReplacementMm": {
                     *                 "low": 1.064,
                     *                 "median": 1.336,
                     *                 "high": 1.443
                     *               },
                     *               "marginAfterNextPadSetMm": {
                     *                 "low": 0.2,
                     *                 "median": 1.061,
                     *                 "high": 1.336
                     *               },
                     *               "decision": "keep",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "margin",
                     *                   "detail": "thinnest point 27.457 mm, 1.457 mm above the discard thickness of 26 mm on 2026-03-02"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs readings at two points or more; 1 was measured"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs readings at two points or more; 1 was measured"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": 0.003
                     *               }
                     *             },
                     *             {
                     *               "side": "right",
                     *               "readings": 0,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latestDate": null,
                     *               "thinnestMm": null,
                     *               "discardMm": 26,
                     *               "machineToMm": 26.4,
                     *               "marginMm": null,
                     *               "marginStandardUncertaintyMm": null,
                     *               "fails": null,
                     *               "conformity": null,
                     *               "chanceOfConformity": null,
                     *               "chanceWithPlacement": null,
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": null,
                     *               "runoutConformity": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00608,
                     *                 "median": 0.01024,
                     *                 "high": 0.03386
                     *               },
                     *               "date": null,
                     *               "marginAtPadReplacementMm": null,
                     *               "marginAfterNextPadSetMm": null,
                     *               "decision": "measure",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement is recorded"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latestDate",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "thinnestMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "marginMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "marginStandardUncertaintyMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "conformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "chanceOfConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "chanceWithPlacement",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "runoutMm",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "runoutConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "date",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor"
                     *                 },
                     *                 {
                     *                   "field": "marginAtPadReplacementMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor, and a forecast of the pads"
                     *                 },
                     *                 {
                     *                   "field": "marginAfterNextPadSetMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor, and a forecast of the pads"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": null
                     *               }
                     *             }
                     *           ],
                     *           "drums": [],
                     *           "findings": [
                     *             {
                     *               "code": "position-never-measured",
                     *               "axle": "front",
                     *               "side": null,
                     *               "pad": null,
                     *               "severity": "note",
                     *               "message": "Never measured on this axle: right inner pad. Its forecast is based on the other linings.",
                     *               "check": "Measure every lining of this axle at its thinnest point.",
                     *               "numbers": {
                     *                 "positions": 1
                     *               }
                     *             },
                     *             {
                     *               "code": "not-measured",
                     *               "axle": "front",
                     *               "side": "right",
                     *               "pad": "inner",
                     *               "severity": "note",
                     *               "message": "Right inner lining was not measured on 2026-03-02: wheel not removed. No earlier reading of it is known either.",
                     *               "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *               "numbers": {}
                     *             }
                     *           ]
                     *         }
                     *       }
                     *     }
                     */
                    "application/json": components["schemas"]["RecordedVisit"];
                };
            };
            /** @description The stored visit and the new outlook. */
            201: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002",
                     *       "version": 1,
                     *       "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *       "date": "2026-03-02",
                     *       "time": "08:10",
                     *       "odometer": {
                     *         "value": 61240,
                     *         "unit": "km",
                     *         "km": 61240
                     *       },
                     *       "workOrder": "WO-20817",
                     *       "technician": "T4",
                     *       "readings": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r1",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "pad": "inner",
                     *           "at": "thinnest",
                     *           "value": 6.5,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 6.5
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r2",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "pad": "outer",
                     *           "at": "thinnest",
                     *           "value": 7,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 7
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r3",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "outer",
                     *           "at": "thinnest",
                     *           "value": 7,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 7
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r4",
                     *           "kind": "rotor-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "point": 1,
                     *           "value": 1.081,
                     *           "unit": "in",
                     *           "taken": "as-found",
                     *           "gauge": "micrometer",
                     *           "repeat": 1,
                     *           "mm": 27.4574
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r5",
                     *           "kind": "rotor-runout",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "value": 0.0015,
                     *           "unit": "in",
                     *           "taken": "as-found",
                     *           "gauge": "dial-indicator",
                     *           "repeat": 1,
                     *           "mm": 0.0381
                     *         }
                     *       ],
                     *       "notMeasured": [
                     *         {
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "inner",
                     *           "why": "wheel not removed"
                     *         }
                     *       ],
                     *       "torques": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-t1",
                     *           "fastener": "caliper-bracket-bolt",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "position": 1,
                     *           "value": 88,
                     *           "unit": "ft-lbf",
                     *           "Nm": 119.31197945316323
                     *         }
                     *       ],
                     *       "roadTest": {
                     *         "pulls": "none",
                     *         "pulsation": false,
                     *         "noise": false
                     *       },
                     *       "conditions": [],
                     *       "work": [],
                     *       "voided": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "findings": [
                     *         {
                     *           "code": "position-never-measured",
                     *           "axle": "front",
                     *           "side": null,
                     *           "pad": null,
                     *           "severity": "note",
                     *           "message": "Never measured on this axle: right inner pad. Its forecast is based on the other linings.",
                     *           "check": "Measure every lining of this axle at its thinnest point.",
                     *           "numbers": {
                     *             "positions": 1
                     *           }
                     *         },
                     *         {
                     *           "code": "not-measured",
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "inner",
                     *           "severity": "note",
                     *           "message": "Right inner lining was not measured on 2026-03-02: wheel not removed. No earlier reading of it is known either.",
                     *           "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *           "numbers": {}
                     *         }
                     *       ],
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision but do not make it. The maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Treat brake dust as harmful. Clean it wet or with an enclosed vacuum; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque to the maker’s figure. Build up pedal pressure before the wheels turn. Bed in new parts, and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself. Put it into its service mode before you touch its calipers.",
                     *           "source": "common practice, no source"
                     *         }
                     *       ],
                     *       "outlook": {
                     *         "front": {
                     *           "axle": "front",
                     *           "advice": {
                     *             "action": "fit-before",
                     *             "part": "pads",
                     *             "by": "2026-05-04",
                     *             "words": "Fit front pads before 4 May 2026.",
                     *             "why": "Right inner not measured yet, limit 3 mm (wear indicator). 44 % chance of reaching it by the next visit, about 31 August 2026.",
                     *             "rotors": "Rotors: measure the right.",
                     *             "checks": 0,
                     *             "check": null,
                     *             "status": "due before the next visit",
                     *             "urgency": "soon"
                     *           },
                     *           "pads": [
                     *             {
                     *               "side": "left",
                     *               "pad": "inner",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 6.5,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.16076,
                     *                 "median": 0.23264,
                     *                 "high": 0.59061
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.19,
                     *                 "median": 3.526,
                     *                 "high": 3.86
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             },
                     *             {
                     *               "side": "left",
                     *               "pad": "outer",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 7,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14477,
                     *                 "median": 0.21013,
                     *                 "high": 0.53161
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.652,
                     *                 "median": 3.986,
                     *                 "high": 4.318
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             },
                     *             {
                     *               "side": "right",
                     *               "pad": "inner",
                     *               "readings": 0,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14931,
                     *                 "median": 0.23568,
                     *                 "high": 0.59748
                     *               },
                     *               "remainingMm": {
                     *                 "low": 2.375,
                     *                 "median": 3.637,
                     *                 "high": 4.723
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": null,
                     *                   "conformity": null,
                     *                   "chanceOfConformity": null,
                     *                   "chanceWithPlacement": null,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": null,
                     *                   "conformity": null,
                     *                   "chanceOfConformity": null,
                     *                   "chanceWithPlacement": null,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latest",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 }
                     *               ]
                     *             },
                     *             {
                     *               "side": "right",
                     *               "pad": "outer",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 7,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14477,
                     *                 "median": 0.21013,
                     *                 "high": 0.53161
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.652,
                     *                 "median": 3.986,
                     *                 "high": 4.318
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             }
                     *           ],
                     *           "replacement": {
                     *             "governingPad": {
                     *               "side": "right",
                     *               "pad": "inner"
                     *             },
                     *             "limitMm": 3,
                     *             "distanceKm": {
                     *               "early": 4025.2,
                     *               "lowerQuartile": 7080.9,
                     *               "median": 11579,
                     *               "upperQuartile": 16516.6,
                     *               "late": 20934.9
                     *             },
                     *             "date": {
                     *               "early": "2026-05-04",
                     *               "lowerQuartile": "2026-06-27",
                     *               "median": "2026-09-20",
                     *               "upperQuartile": "2027-01-02",
                     *               "late": "2027-05-08"
                     *             },
                     *             "overdue": false,
                     *             "basis": {
                     *               "readings": 3,
                     *               "experience": "starting-values",
                     *               "set": "unknown",
                     *               "words": "3 readings of these pads, whose fitting is not known, and typical starting values, because the shop has no learned experience yet."
                     *             },
                     *             "untilNextVisit": {
                     *               "date": "2026-08-31",
                     *               "dateSource": "policy",
                     *               "chanceLimitReached": 0.4423
                     *             },
                     *             "reasons": [
                     *               {
                     *                 "field": "governingPad",
                     *                 "code": "governing-pad-not-measured",
                     *                 "detail": "right inner was never measured; it is assumed to wear like the others"
                     *               }
                     *             ]
                     *           },
                     *           "rotors": [
                     *             {
                     *               "side": "left",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latestDate": "2026-03-02",
                     *               "thinnestMm": 27.4574,
                     *               "discardMm": 26,
                     *               "machineToMm": 26.4,
                     *               "marginMm": 1.4574,
                     *               "marginStandardUncertaintyMm": 0.002887,
                     *               "fails": false,
                     *               "conformity": "conforms",
                     *               "chanceOfConformity": 1,
                     *               "chanceWithPlacement": 1,
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": 0.0381,
                     *               "runoutConformity": "conforms",
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00636,
                     *                 "median": 0.00987,
                     *                 "high": 0.03291
                     *               },
                     *               "date": {
                     *                 "early": "2028-03-22",
                     *                 "lowerQuartile": "2030-09-04",
                     *                 "median": "2032-12-27",
                     *                 "upperQuartile": "2035-08-22",
                     *                 "late": "2039-04-26"
                     *               },
                     *               "marginAtPadReplacementMm": {
                     *                 "low": 1.064,
                     *                 "median": 1.336,
                     *                 "high": 1.443
                     *               },
                     *               "marginAfterNextPadSetMm": {
                     *                 "low": 0.2,
                     *                 "median": 1.061,
                     *                 "high": 1.336
                     *               },
                     *               "decision": "keep",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "margin",
                     *                   "detail": "thinnest point 27.457 mm, 1.457 mm above the discard thickness of 26 mm on 2026-03-02"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs readings at two points or more; 1 was measured"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs readings at two points or more; 1 was measured"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": 0.003
                     *               }
                     *             },
                     *             {
                     *               "side": "right",
                     *               "readings": 0,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latestDate": null,
                     *               "thinnestMm": null,
                     *               "discardMm": 26,
                     *               "machineToMm": 26.4,
                     *               "marginMm": null,
                     *               "marginStandardUncertaintyMm": null,
                     *               "fails": null,
                     *               "conformity": null,
                     *               "chanceOfConformity": null,
                     *               "chanceWithPlacement": null,
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": null,
                     *               "runoutConformity": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00608,
                     *                 "median": 0.01024,
                     *                 "high": 0.03386
                     *               },
                     *               "date": null,
                     *               "marginAtPadReplacementMm": null,
                     *               "marginAfterNextPadSetMm": null,
                     *               "decision": "measure",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement is recorded"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latestDate",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "thinnestMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "marginMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "marginStandardUncertaintyMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "conformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "chanceOfConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "chanceWithPlacement",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "runoutMm",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "runoutConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "date",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor"
                     *                 },
                     *                 {
                     *                   "field": "marginAtPadReplacementMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor, and a forecast of the pads"
                     *                 },
                     *                 {
                     *                   "field": "marginAfterNextPadSetMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor, and a forecast of the pads"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": null
                     *               }
                     *             }
                     *           ],
                     *           "drums": [],
                     *           "findings": [
                     *             {
                     *               "code": "position-never-measured",
                     *               "axle": "front",
                     *               "side": null,
                     *               "pad": null,
                     *               "severity": "note",
                     *               "message": "Never measured on this axle: right inner pad. Its forecast is based on the other linings.",
                     *               "check": "Measure every lining of this axle at its thinnest point.",
                     *               "numbers": {
                     *                 "positions": 1
                     *               }
                     *             },
                     *             {
                     *               "code": "not-measured",
                     *               "axle": "front",
                     *               "side": "right",
                     *               "pad": "inner",
                     *               "severity": "note",
                     *               "message": "Right inner lining was not measured on 2026-03-02: wheel not removed. No earlier reading of it is known either.",
                     *               "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *               "numbers": {}
                     *             }
                     *           ]
                     *         }
                     *       }
                     *     }
                     */
                    "application/json": components["schemas"]["RecordedVisit"];
                };
            };
            /** @description The request cannot be read (`malformed-request`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The work order is already recorded with different content (`work-order-known`); The personal data of the vehicle was erased (`vehicle-erased`); The visit already has a road test (`road-test-recorded`); The visit is voided (`visit-voided`); A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`); The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getVisit: {
        parameters: {
            query?: never;
            header?: {
                /** @description An ETag. The server answers 304 if nothing has changed since. */
                "If-None-Match"?: string;
            };
            path: {
                /** @description The `id` of a visit. */
                visitId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The visit. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002",
                     *       "version": 1,
                     *       "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *       "date": "2026-03-02",
                     *       "time": "08:10",
                     *       "odometer": {
                     *         "value": 61240,
                     *         "unit": "km",
                     *         "km": 61240
                     *       },
                     *       "workOrder": "WO-20817",
                     *       "technician": "T4",
                     *       "readings": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r1",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "pad": "inner",
                     *           "at": "thinnest",
                     *           "value": 6.5,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 6.5
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r2",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "pad": "outer",
                     *           "at": "thinnest",
                     *           "value": 7,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 7
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r3",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "outer",
                     *           "at": "thinnest",
                     *           "value": 7,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 7
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r4",
                     *           "kind": "rotor-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "point": 1,
                     *           "value": 1.081,
                     *           "unit": "in",
                     *           "taken": "as-found",
                     *           "gauge": "micrometer",
                     *           "repeat": 1,
                     *           "mm": 27.4574
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r5",
                     *           "kind": "rotor-runout",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "value": 0.0015,
                     *           "unit": "in",
                     *           "taken": "as-found",
                     *           "gauge": "dial-indicator",
                     *           "repeat": 1,
                     *           "mm": 0.0381
                     *         }
                     *       ],
                     *       "notMeasured": [
                     *         {
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "inner",
                     *           "why": "wheel not removed"
                     *         }
                     *       ],
                     *       "torques": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-t1",
                     *           "fastener": "caliper-bracket-bolt",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "position": 1,
                     *           "value": 88,
                     *           "unit": "ft-lbf",
                     *           "Nm": 119.31197945316323
                     *         }
                     *       ],
                     *       "roadTest": {
                     *         "pulls": "none",
                     *         "pulsation": false,
                     *         "noise": false
                     *       },
                     *       "conditions": [],
                     *       "work": [],
                     *       "voided": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z"
                     *     }
                     */
                    "application/json": components["schemas"]["Visit"];
                };
            };
            /** @description The caller already has this version. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    addVisitEntries: {
        parameters: {
            query?: never;
            header?: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
            };
            path: {
                /** @description The `id` of a visit. */
                visitId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["EntryBody"];
            };
        };
        responses: {
            /** @description The extended visit and the new outlook. */
            201: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002",
                     *       "version": 2,
                     *       "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *       "date": "2026-03-02",
                     *       "time": "08:10",
                     *       "odometer": {
                     *         "value": 61240,
                     *         "unit": "km",
                     *         "km": 61240
                     *       },
                     *       "workOrder": "WO-20817",
                     *       "technician": "T4",
                     *       "readings": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r1",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "pad": "inner",
                     *           "at": "thinnest",
                     *           "value": 6.5,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 6.5
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r2",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "pad": "outer",
                     *           "at": "thinnest",
                     *           "value": 7,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 7
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r3",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "outer",
                     *           "at": "thinnest",
                     *           "value": 7,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 7
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r4",
                     *           "kind": "rotor-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "point": 1,
                     *           "value": 1.081,
                     *           "unit": "in",
                     *           "taken": "as-found",
                     *           "gauge": "micrometer",
                     *           "repeat": 1,
                     *           "mm": 27.4574
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r5",
                     *           "kind": "rotor-runout",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "value": 0.0015,
                     *           "unit": "in",
                     *           "taken": "as-found",
                     *           "gauge": "dial-indicator",
                     *           "repeat": 1,
                     *           "mm": 0.0381
                     *         }
                     *       ],
                     *       "notMeasured": [
                     *         {
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "inner",
                     *           "why": "wheel not removed"
                     *         }
                     *       ],
                     *       "torques": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-t1",
                     *           "fastener": "caliper-bracket-bolt",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "position": 1,
                     *           "value": 88,
                     *           "unit": "ft-lbf",
                     *           "Nm": 119.31197945316323
                     *         }
                     *       ],
                     *       "roadTest": {
                     *         "pulls": "none",
                     *         "pulsation": false,
                     *         "noise": false
                     *       },
                     *       "conditions": [],
                     *       "work": [],
                     *       "voided": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "findings": [
                     *         {
                     *           "code": "position-never-measured",
                     *           "axle": "front",
                     *           "side": null,
                     *           "pad": null,
                     *           "severity": "note",
                     *           "message": "Never measured on this axle: right inner pad. Its forecast is based on the other linings.",
                     *           "check": "Measure every lining of this axle at its thinnest point.",
                     *           "numbers": {
                     *             "positions": 1
                     *           }
                     *         },
                     *         {
                     *           "code": "not-measured",
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "inner",
                     *           "severity": "note",
                     *           "message": "Right inner lining was not measured on 2026-03-02: wheel not removed. No earlier reading of it is known either.",
                     *           "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *           "numbers": {}
                     *         }
                     *       ],
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision but do not make it. The maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Treat brake dust as harmful. Clean it wet or with an enclosed vacuum; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque to the maker’s figure. Build up pedal pressure before the wheels turn. Bed in new parts, and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself. Put it into its service mode before you touch its calipers.",
                     *           "source": "common practice, no source"
                     *         }
                     *       ],
                     *       "outlook": {
                     *         "front": {
                     *           "axle": "front",
                     *           "advice": {
                     *             "action": "fit-before",
                     *             "part": "pads",
                     *             "by": "2026-05-04",
                     *             "words": "Fit front pads before 4 May 2026.",
                     *             "why": "Right inner not measured yet, limit 3 mm (wear indicator). 44 % chance of reaching it by the next visit, about 31 August 2026.",
                     *             "rotors": "Rotors: measure the right.",
                     *             "checks": 0,
                     *             "check": null,
                     *             "status": "due before the next visit",
                     *             "urgency": "soon"
                     *           },
                     *           "pads": [
                     *             {
                     *               "side": "left",
                     *               "pad": "inner",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 6.5,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.16076,
                     *                 "median": 0.23264,
                     *                 "high": 0.59061
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.19,
                     *                 "median": 3.526,
                     *                 "high": 3.86
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             },
                     *             {
                     *               "side": "left",
                     *               "pad": "outer",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 7,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14477,
                     *                 "median": 0.21013,
                     *                 "high": 0.53161
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.652,
                     *                 "median": 3.986,
                     *                 "high": 4.318
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             },
                     *             {
                     *               "side": "right",
                     *               "pad": "inner",
                     *               "readings": 0,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14931,
                     *                 "median": 0.23568,
                     *                 "high": 0.59748
                     *               },
                     *               "remainingMm": {
                     *                 "low": 2.375,
                     *                 "median": 3.637,
                     *                 "high": 4.723
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": null,
                     *                   "conformity": null,
                     *                   "chanceOfConformity": null,
                     *                   "chanceWithPlacement": null,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": null,
                     *                   "conformity": null,
                     *                   "chanceOfConformity": null,
                     *                   "chanceWithPlacement": null,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latest",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 }
                     *               ]
                     *             },
                     *             {
                     *               "side": "right",
                     *               "pad": "outer",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 7,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14477,
                     *                 "median": 0.21013,
                     *                 "high": 0.53161
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.652,
                     *                 "median": 3.986,
                     *                 "high": 4.318
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             }
                     *           ],
                     *           "replacement": {
                     *             "governingPad": {
                     *               "side": "right",
                     *               "pad": "inner"
                     *             },
                     *             "limitMm": 3,
                     *             "distanceKm": {
                     *               "early": 4025.2,
                     *               "lowerQuartile": 7080.9,
                     *               "median": 11579,
                     *               "upperQuartile": 16516.6,
                     *               "late": 20934.9
                     *             },
                     *             "date": {
                     *               "early": "2026-05-04",
                     *               "lowerQuartile": "2026-06-27",
                     *               "median": "2026-09-20",
                     *               "upperQuartile": "2027-01-02",
                     *               "late": "2027-05-08"
                     *             },
                     *             "overdue": false,
                     *             "basis": {
                     *               "readings": 3,
                     *               "experience": "starting-values",
                     *               "set": "unknown",
                     *               "words": "3 readings of these pads, whose fitting is not known, and typical starting values, because the shop has no learned experience yet."
                     *             },
                     *             "untilNextVisit": {
                     *               "date": "2026-08-31",
                     *               "dateSource": "policy",
                     *               "chanceLimitReached": 0.4423
                     *             },
                     *             "reasons": [
                     *               {
                     *                 "field": "governingPad",
                     *                 "code": "governing-pad-not-measured",
                     *                 "detail": "right inner was never measured; it is assumed to wear like the others"
                     *               }
                     *             ]
                     *           },
                     *           "rotors": [
                     *             {
                     *               "side": "left",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latestDate": "2026-03-02",
                     *               "thinnestMm": 27.4574,
                     *               "discardMm": 26,
                     *               "machineToMm": 26.4,
                     *               "marginMm": 1.4574,
                     *               "marginStandardUncertaintyMm": 0.002887,
                     *               "fails": false,
                     *               "conformity": "conforms",
                     *               "chanceOfConformity": 1,
                     *               "chanceWithPlacement": 1,
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": 0.0381,
                     *               "runoutConformity": "conforms",
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00636,
                     *                 "median": 0.00987,
                     *                 "high": 0.03291
                     *               },
                     *               "date": {
                     *                 "early": "2028-03-22",
                     *                 "lowerQuartile": "2030-09-04",
                     *                 "median": "2032-12-27",
                     *                 "upperQuartile": "2035-08-22",
                     *                 "late": "2039-04-26"
                     *               },
                     *               "marginAtPadReplacementMm": {
                     *                 "low": 1.064,
                     *                 "median": 1.336,
                     *                 "high": 1.443
                     *               },
                     *               "marginAfterNextPadSetMm": {
                     *                 "low": 0.2,
                     *                 "median": 1.061,
                     *                 "high": 1.336
                     *               },
                     *               "decision": "keep",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "margin",
                     *                   "detail": "thinnest point 27.457 mm, 1.457 mm above the discard thickness of 26 mm on 2026-03-02"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs readings at two points or more; 1 was measured"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs readings at two points or more; 1 was measured"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": 0.003
                     *               }
                     *             },
                     *             {
                     *               "side": "right",
                     *               "readings": 0,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latestDate": null,
                     *               "thinnestMm": null,
                     *               "discardMm": 26,
                     *               "machineToMm": 26.4,
                     *               "marginMm": null,
                     *               "marginStandardUncertaintyMm": null,
                     *               "fails": null,
                     *               "conformity": null,
                     *               "chanceOfConformity": null,
                     *               "chanceWithPlacement": null,
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": null,
                     *               "runoutConformity": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00608,
                     *                 "median": 0.01024,
                     *                 "high": 0.03386
                     *               },
                     *               "date": null,
                     *               "marginAtPadReplacementMm": null,
                     *               "marginAfterNextPadSetMm": null,
                     *               "decision": "measure",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement is recorded"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latestDate",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "thinnestMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "marginMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "marginStandardUncertaintyMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "conformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "chanceOfConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "chanceWithPlacement",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "runoutMm",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "runoutConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "date",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor"
                     *                 },
                     *                 {
                     *                   "field": "marginAtPadReplacementMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor, and a forecast of the pads"
                     *                 },
                     *                 {
                     *                   "field": "marginAfterNextPadSetMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor, and a forecast of the pads"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": null
                     *               }
                     *             }
                     *           ],
                     *           "drums": [],
                     *           "findings": [
                     *             {
                     *               "code": "position-never-measured",
                     *               "axle": "front",
                     *               "side": null,
                     *               "pad": null,
                     *               "severity": "note",
                     *               "message": "Never measured on this axle: right inner pad. Its forecast is based on the other linings.",
                     *               "check": "Measure every lining of this axle at its thinnest point.",
                     *               "numbers": {
                     *                 "positions": 1
                     *               }
                     *             },
                     *             {
                     *               "code": "not-measured",
                     *               "axle": "front",
                     *               "side": "right",
                     *               "pad": "inner",
                     *               "severity": "note",
                     *               "message": "Right inner lining was not measured on 2026-03-02: wheel not removed. No earlier reading of it is known either.",
                     *               "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *               "numbers": {}
                     *             }
                     *           ]
                     *         }
                     *       }
                     *     }
                     */
                    "application/json": components["schemas"]["RecordedVisit"];
                };
            };
            /** @description The request cannot be read (`malformed-request`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The work order is already recorded with different content (`work-order-known`); The personal data of the vehicle was erased (`vehicle-erased`); The visit already has a road test (`road-test-recorded`); The visit is voided (`visit-voided`); A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`); The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getOpenPoints: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The `id` of a visit. */
                visitId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The open points. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "visitId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002",
                     *       "complete": false,
                     *       "items": [
                     *         {
                     *           "code": "measure-not-done",
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": null,
                     *           "fastener": null,
                     *           "finding": null,
                     *           "message": "Measure the right rotor of the front axle and record the reading: no measurement is recorded.",
                     *           "numbers": {}
                     *         }
                     *       ]
                     *     }
                     */
                    "application/json": components["schemas"]["OpenPoints"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    correctVisit: {
        parameters: {
            query?: never;
            header: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
                /** @description The ETag of the version to change. */
                "If-Match": string;
            };
            path: {
                /** @description The `id` of a visit. */
                visitId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["CorrectionBody"];
            };
        };
        responses: {
            /** @description The corrected visit and the new outlook. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002",
                     *       "version": 2,
                     *       "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *       "date": "2026-03-02",
                     *       "time": "08:10",
                     *       "odometer": {
                     *         "value": 61240,
                     *         "unit": "km",
                     *         "km": 61240
                     *       },
                     *       "workOrder": "WO-20817",
                     *       "technician": "T4",
                     *       "readings": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r1",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "pad": "inner",
                     *           "at": "thinnest",
                     *           "value": 6.5,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 6.5
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r2",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "pad": "outer",
                     *           "at": "thinnest",
                     *           "value": 7,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 7
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r3",
                     *           "kind": "pad-thickness",
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "outer",
                     *           "at": "thinnest",
                     *           "value": 7,
                     *           "unit": "mm",
                     *           "taken": "as-found",
                     *           "gauge": "pad-gauge",
                     *           "repeat": 1,
                     *           "mm": 7
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r4",
                     *           "kind": "rotor-thickness",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "point": 1,
                     *           "value": 1.081,
                     *           "unit": "in",
                     *           "taken": "as-found",
                     *           "gauge": "micrometer",
                     *           "repeat": 1,
                     *           "mm": 27.4574
                     *         },
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-r5",
                     *           "kind": "rotor-runout",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "value": 0.0015,
                     *           "unit": "in",
                     *           "taken": "as-found",
                     *           "gauge": "dial-indicator",
                     *           "repeat": 1,
                     *           "mm": 0.0381
                     *         }
                     *       ],
                     *       "notMeasured": [
                     *         {
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "inner",
                     *           "why": "wheel not removed"
                     *         }
                     *       ],
                     *       "torques": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002-t1",
                     *           "fastener": "caliper-bracket-bolt",
                     *           "axle": "front",
                     *           "side": "left",
                     *           "position": 1,
                     *           "value": 88,
                     *           "unit": "ft-lbf",
                     *           "Nm": 119.31197945316323
                     *         }
                     *       ],
                     *       "roadTest": {
                     *         "pulls": "none",
                     *         "pulsation": false,
                     *         "noise": false
                     *       },
                     *       "conditions": [],
                     *       "work": [],
                     *       "voided": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "findings": [
                     *         {
                     *           "code": "position-never-measured",
                     *           "axle": "front",
                     *           "side": null,
                     *           "pad": null,
                     *           "severity": "note",
                     *           "message": "Never measured on this axle: right inner pad. Its forecast is based on the other linings.",
                     *           "check": "Measure every lining of this axle at its thinnest point.",
                     *           "numbers": {
                     *             "positions": 1
                     *           }
                     *         },
                     *         {
                     *           "code": "not-measured",
                     *           "axle": "front",
                     *           "side": "right",
                     *           "pad": "inner",
                     *           "severity": "note",
                     *           "message": "Right inner lining was not measured on 2026-03-02: wheel not removed. No earlier reading of it is known either.",
                     *           "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *           "numbers": {}
                     *         }
                     *       ],
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision but do not make it. The maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Treat brake dust as harmful. Clean it wet or with an enclosed vacuum; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque to the maker’s figure. Build up pedal pressure before the wheels turn. Bed in new parts, and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself. Put it into its service mode before you touch its calipers.",
                     *           "source": "common practice, no source"
                     *         }
                     *       ],
                     *       "outlook": {
                     *         "front": {
                     *           "axle": "front",
                     *           "advice": {
                     *             "action": "fit-before",
                     *             "part": "pads",
                     *             "by": "2026-05-04",
                     *             "words": "Fit front pads before 4 May 2026.",
                     *             "why": "Right inner not measured yet, limit 3 mm (wear indicator). 44 % chance of reaching it by the next visit, about 31 August 2026.",
                     *             "rotors": "Rotors: measure the right.",
                     *             "checks": 0,
                     *             "check": null,
                     *             "status": "due before the next visit",
                     *             "urgency": "soon"
                     *           },
                     *           "pads": [
                     *             {
                     *               "side": "left",
                     *               "pad": "inner",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 6.5,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.16076,
                     *                 "median": 0.23264,
                     *                 "high": 0.59061
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.19,
                     *                 "median": 3.526,
                     *                 "high": 3.86
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             },
                     *             {
                     *               "side": "left",
                     *               "pad": "outer",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 7,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14477,
                     *                 "median": 0.21013,
                     *                 "high": 0.53161
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.652,
                     *                 "median": 3.986,
                     *                 "high": 4.318
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             },
                     *             {
                     *               "side": "right",
                     *               "pad": "inner",
                     *               "readings": 0,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14931,
                     *                 "median": 0.23568,
                     *                 "high": 0.59748
                     *               },
                     *               "remainingMm": {
                     *                 "low": 2.375,
                     *                 "median": 3.637,
                     *                 "high": 4.723
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": null,
                     *                   "conformity": null,
                     *                   "chanceOfConformity": null,
                     *                   "chanceWithPlacement": null,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": null,
                     *                   "conformity": null,
                     *                   "chanceOfConformity": null,
                     *                   "chanceWithPlacement": null,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latest",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 }
                     *               ]
                     *             },
                     *             {
                     *               "side": "right",
                     *               "pad": "outer",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 7,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14477,
                     *                 "median": 0.21013,
                     *                 "high": 0.53161
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.652,
                     *                 "median": 3.986,
                     *                 "high": 4.318
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             }
                     *           ],
                     *           "replacement": {
                     *             "governingPad": {
                     *               "side": "right",
                     *               "pad": "inner"
                     *             },
                     *             "limitMm": 3,
                     *             "distanceKm": {
                     *               "early": 4025.2,
                     *               "lowerQuartile": 7080.9,
                     *               "median": 11579,
                     *               "upperQuartile": 16516.6,
                     *               "late": 20934.9
                     *             },
                     *             "date": {
                     *               "early": "2026-05-04",
                     *               "lowerQuartile": "2026-06-27",
                     *               "median": "2026-09-20",
                     *               "upperQuartile": "2027-01-02",
                     *               "late": "2027-05-08"
                     *             },
                     *             "overdue": false,
                     *             "basis": {
                     *               "readings": 3,
                     *               "experience": "starting-values",
                     *               "set": "unknown",
                     *               "words": "3 readings of these pads, whose fitting is not known, and typical starting values, because the shop has no learned experience yet."
                     *             },
                     *             "untilNextVisit": {
                     *               "date": "2026-08-31",
                     *               "dateSource": "policy",
                     *               "chanceLimitReached": 0.4423
                     *             },
                     *             "reasons": [
                     *               {
                     *                 "field": "governingPad",
                     *                 "code": "governing-pad-not-measured",
                     *                 "detail": "right inner was never measured; it is assumed to wear like the others"
                     *               }
                     *             ]
                     *           },
                     *           "rotors": [
                     *             {
                     *               "side": "left",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latestDate": "2026-03-02",
                     *               "thinnestMm": 27.4574,
                     *               "discardMm": 26,
                     *               "machineToMm": 26.4,
                     *               "marginMm": 1.4574,
                     *               "marginStandardUncertaintyMm": 0.002887,
                     *               "fails": false,
                     *               "conformity": "conforms",
                     *               "chanceOfConformity": 1,
                     *               "chanceWithPlacement": 1,
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": 0.0381,
                     *               "runoutConformity": "conforms",
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00636,
                     *                 "median": 0.00987,
                     *                 "high": 0.03291
                     *               },
                     *               "date": {
                     *                 "early": "2028-03-22",
                     *                 "lowerQuartile": "2030-09-04",
                     *                 "median": "2032-12-27",
                     *                 "upperQuartile": "2035-08-22",
                     *                 "late": "2039-04-26"
                     *               },
                     *               "marginAtPadReplacementMm": {
                     *                 "low": 1.064,
                     *                 "median": 1.336,
                     *                 "high": 1.443
                     *               },
                     *               "marginAfterNextPadSetMm": {
                     *                 "low": 0.2,
                     *                 "median": 1.061,
                     *                 "high": 1.336
                     *               },
                     *               "decision": "keep",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "margin",
                     *                   "detail": "thinnest point 27.457 mm, 1.457 mm above the discard thickness of 26 mm on 2026-03-02"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs readings at two points or more; 1 was measured"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs readings at two points or more; 1 was measured"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": 0.003
                     *               }
                     *             },
                     *             {
                     *               "side": "right",
                     *               "readings": 0,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latestDate": null,
                     *               "thinnestMm": null,
                     *               "discardMm": 26,
                     *               "machineToMm": 26.4,
                     *               "marginMm": null,
                     *               "marginStandardUncertaintyMm": null,
                     *               "fails": null,
                     *               "conformity": null,
                     *               "chanceOfConformity": null,
                     *               "chanceWithPlacement": null,
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": null,
                     *               "runoutConformity": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00608,
                     *                 "median": 0.01024,
                     *                 "high": 0.03386
                     *               },
                     *               "date": null,
                     *               "marginAtPadReplacementMm": null,
                     *               "marginAfterNextPadSetMm": null,
                     *               "decision": "measure",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement is recorded"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latestDate",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "thinnestMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "marginMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "marginStandardUncertaintyMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "conformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "chanceOfConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "chanceWithPlacement",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "runoutMm",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "runoutConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "date",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor"
                     *                 },
                     *                 {
                     *                   "field": "marginAtPadReplacementMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor, and a forecast of the pads"
                     *                 },
                     *                 {
                     *                   "field": "marginAfterNextPadSetMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor, and a forecast of the pads"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": null
                     *               }
                     *             }
                     *           ],
                     *           "drums": [],
                     *           "findings": [
                     *             {
                     *               "code": "position-never-measured",
                     *               "axle": "front",
                     *               "side": null,
                     *               "pad": null,
                     *               "severity": "note",
                     *               "message": "Never measured on this axle: right inner pad. Its forecast is based on the other linings.",
                     *               "check": "Measure every lining of this axle at its thinnest point.",
                     *               "numbers": {
                     *                 "positions": 1
                     *               }
                     *             },
                     *             {
                     *               "code": "not-measured",
                     *               "axle": "front",
                     *               "side": "right",
                     *               "pad": "inner",
                     *               "severity": "note",
                     *               "message": "Right inner lining was not measured on 2026-03-02: wheel not removed. No earlier reading of it is known either.",
                     *               "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *               "numbers": {}
                     *             }
                     *           ]
                     *         }
                     *       }
                     *     }
                     */
                    "application/json": components["schemas"]["RecordedVisit"];
                };
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The personal data of the vehicle was erased (`vehicle-erased`); The work order is already recorded with different content (`work-order-known`); The visit is voided (`visit-voided`); The visit is not voided (`visit-not-voided`); A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The resource has changed since it was read (`stale-version`) */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`); The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description If-Match is needed (`precondition-needed`) */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    mergeVehicles: {
        parameters: {
            query?: never;
            header: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
                /** @description The ETag of the version to change. */
                "If-Match": string;
            };
            path: {
                /** @description The `id` of a vehicle. */
                vehicleId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["MergeBody"];
            };
        };
        responses: {
            /** @description The merged vehicle. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *       "version": 2,
                     *       "externalId": "FD-1007",
                     *       "registration": "KR 4471",
                     *       "vin": null,
                     *       "description": "long-wheelbase parcel van",
                     *       "model": "parcel-van-3t5",
                     *       "fleet": "north-depot",
                     *       "powertrain": "combustion",
                     *       "grossMass": {
                     *         "value": 3500,
                     *         "unit": "kg",
                     *         "kg": 3500
                     *       },
                     *       "brakeSystem": {
                     *         "regenerative": false,
                     *         "brakeByWire": false,
                     *         "electricParkingBrake": true
                     *       },
                     *       "inService": {
                     *         "date": "2023-05-04",
                     *         "odometer": {
                     *           "value": 12,
                     *           "unit": "km",
                     *           "km": 12
                     *         }
                     *       },
                     *       "outOfService": null,
                     *       "axles": {
                     *         "front": {
                     *           "brake": "disc",
                     *           "actuation": "hydraulic",
                     *           "steered": true,
                     *           "lining": "bonded",
                     *           "pad": {
                     *             "new": {
                     *               "value": 11,
                     *               "unit": "mm",
                     *               "mm": 11
                     *             },
                     *             "limit": {
                     *               "value": 2,
                     *               "unit": "mm",
                     *               "mm": 2
                     *             },
                     *             "wearIndicator": {
                     *               "value": 3,
                     *               "unit": "mm",
                     *               "type": "mechanical",
                     *               "mm": 3
                     *             }
                     *           },
                     *           "rotor": {
                     *             "new": {
                     *               "value": 28,
                     *               "unit": "mm",
                     *               "mm": 28
                     *             },
                     *             "discard": {
                     *               "value": 26,
                     *               "unit": "mm",
                     *               "mm": 26
                     *             },
                     *             "machineTo": {
                     *               "value": 26.4,
                     *               "unit": "mm",
                     *               "mm": 26.4
                     *             },
                     *             "runoutLimit": {
                     *               "value": 0.05,
                     *               "unit": "mm",
                     *               "mm": 0.05
                     *             },
                     *             "variationLimit": {
                     *               "value": 0.02,
                     *               "unit": "mm",
                     *               "mm": 0.02
                     *             }
                     *           },
                     *           "torque": {
                     *             "caliper-bracket-bolt": {
                     *               "value": 120,
                     *               "unit": "Nm",
                     *               "tolerance": {
                     *                 "value": 10,
                     *                 "unit": "Nm",
                     *                 "Nm": 10
                     *               },
                     *               "Nm": 120
                     *             }
                     *           }
                     *         }
                     *       },
                     *       "mergedInto": null,
                     *       "erasedAt": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "warnings": []
                     *     }
                     */
                    "application/json": components["schemas"]["Vehicle"];
                };
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The personal data of the vehicle was erased (`vehicle-erased`); Both records have a visit with the same work order (`work-orders-collide`); A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The resource has changed since it was read (`stale-version`) */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`); The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description If-Match is needed (`precondition-needed`) */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listVisitVersions: {
        parameters: {
            query?: {
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path: {
                /** @description The `id` of a visit. */
                visitId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description A page of versions. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [
                     *         {
                     *           "version": 1,
                     *           "kind": "recorded",
                     *           "at": "2026-03-02T09:15:00.000Z",
                     *           "by": "front-desk",
                     *           "reason": null,
                     *           "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *           "body": {
                     *             "date": "2026-03-02",
                     *             "time": "08:10",
                     *             "odometer": {
                     *               "value": 61240,
                     *               "unit": "km"
                     *             },
                     *             "workOrder": "WO-20817",
                     *             "technician": "T4",
                     *             "readings": [
                     *               {
                     *                 "kind": "pad-thickness",
                     *                 "axle": "front",
                     *                 "side": "left",
                     *                 "pad": "inner",
                     *                 "at": "thinnest",
                     *                 "value": 6.5,
                     *                 "unit": "mm",
                     *                 "taken": "as-found",
                     *                 "gauge": "pad-gauge",
                     *                 "repeat": 1
                     *               },
                     *               {
                     *                 "kind": "pad-thickness",
                     *                 "axle": "front",
                     *                 "side": "left",
                     *                 "pad": "outer",
                     *                 "at": "thinnest",
                     *                 "value": 7,
                     *                 "unit": "mm",
                     *                 "taken": "as-found",
                     *                 "gauge": "pad-gauge",
                     *                 "repeat": 1
                     *               },
                     *               {
                     *                 "kind": "pad-thickness",
                     *                 "axle": "front",
                     *                 "side": "right",
                     *                 "pad": "outer",
                     *                 "at": "thinnest",
                     *                 "value": 7,
                     *                 "unit": "mm",
                     *                 "taken": "as-found",
                     *                 "gauge": "pad-gauge",
                     *                 "repeat": 1
                     *               },
                     *               {
                     *                 "kind": "rotor-thickness",
                     *                 "axle": "front",
                     *                 "side": "left",
                     *                 "point": 1,
                     *                 "value": 1.081,
                     *                 "unit": "in",
                     *                 "taken": "as-found",
                     *                 "gauge": "micrometer",
                     *                 "repeat": 1
                     *               },
                     *               {
                     *                 "kind": "rotor-runout",
                     *                 "axle": "front",
                     *                 "side": "left",
                     *                 "value": 0.0015,
                     *                 "unit": "in",
                     *                 "taken": "as-found",
                     *                 "gauge": "dial-indicator",
                     *                 "repeat": 1
                     *               }
                     *             ],
                     *             "notMeasured": [
                     *               {
                     *                 "axle": "front",
                     *                 "side": "right",
                     *                 "pad": "inner",
                     *                 "why": "wheel not removed"
                     *               }
                     *             ],
                     *             "torques": [
                     *               {
                     *                 "fastener": "caliper-bracket-bolt",
                     *                 "axle": "front",
                     *                 "side": "left",
                     *                 "position": 1,
                     *                 "value": 88,
                     *                 "unit": "ft-lbf"
                     *               }
                     *             ],
                     *             "roadTest": {
                     *               "pulls": "none",
                     *               "pulsation": false,
                     *               "noise": false
                     *             }
                     *           }
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["VisitHistory"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listVehicleVersions: {
        parameters: {
            query?: {
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path: {
                /** @description The `id` of a vehicle. */
                vehicleId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description A page of versions. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [
                     *         {
                     *           "version": 1,
                     *           "kind": "recorded",
                     *           "at": "2026-03-02T09:15:00.000Z",
                     *           "by": "front-desk",
                     *           "reason": null,
                     *           "effectiveFrom": null,
                     *           "mergedWith": null,
                     *           "body": {
                     *             "externalId": "FD-1007",
                     *             "registration": "KR 4471",
                     *             "description": "long-wheelbase parcel van",
                     *             "model": "parcel-van-3t5",
                     *             "fleet": "north-depot",
                     *             "powertrain": "combustion",
                     *             "brakeSystem": {
                     *               "regenerative": false,
                     *               "brakeByWire": false,
                     *               "electricParkingBrake": true
                     *             },
                     *             "grossMass": {
                     *               "value": 3500,
                     *               "unit": "kg"
                     *             },
                     *             "inService": {
                     *               "date": "2023-05-04",
                     *               "odometer": {
                     *                 "value": 12,
                     *                 "unit": "km"
                     *               }
                     *             },
                     *             "axles": {
                     *               "front": {
                     *                 "brake": "disc",
                     *                 "actuation": "hydraulic",
                     *                 "steered": true,
                     *                 "lining": "bonded",
                     *                 "pad": {
                     *                   "new": {
                     *                     "value": 11,
                     *                     "unit": "mm"
                     *                   },
                     *                   "limit": {
                     *                     "value": 2,
                     *                     "unit": "mm"
                     *                   },
                     *                   "wearIndicator": {
                     *                     "value": 3,
                     *                     "unit": "mm",
                     *                     "type": "mechanical"
                     *                   }
                     *                 },
                     *                 "rotor": {
                     *                   "new": {
                     *                     "value": 28,
                     *                     "unit": "mm"
                     *                   },
                     *                   "discard": {
                     *                     "value": 26,
                     *                     "unit": "mm"
                     *                   },
                     *                   "machineTo": {
                     *                     "value": 26.4,
                     *                     "unit": "mm"
                     *                   },
                     *                   "runoutLimit": {
                     *                     "value": 0.05,
                     *                     "unit": "mm"
                     *                   },
                     *                   "variationLimit": {
                     *                     "value": 0.02,
                     *                     "unit": "mm"
                     *                   }
                     *                 },
                     *                 "torque": {
                     *                   "caliper-bracket-bolt": {
                     *                     "value": 120,
                     *                     "unit": "Nm",
                     *                     "tolerance": {
                     *                       "value": 10,
                     *                       "unit": "Nm"
                     *                     }
                     *                   }
                     *                 }
                     *               }
                     *             }
                     *           }
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["VehicleHistory"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listAuditEntries: {
        parameters: {
            query?: {
                /** @description An RFC 3339 instant. If missing, the list starts with the first entry. */
                since?: string;
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description A page of the audit log. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [
                     *         {
                     *           "id": "1",
                     *           "at": "2026-03-02T09:15:00.000Z",
                     *           "key": "front-desk",
                     *           "method": "POST",
                     *           "action": "recorded",
                     *           "resource": "visit",
                     *           "resourceId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de002",
                     *           "detail": null
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["Audit"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getWear: {
        parameters: {
            query?: {
                /** @description Answers from what was known on this date. */
                asOf?: string;
                /** @description The date of the next visit, for untilNextVisit. */
                until?: string;
            };
            header?: never;
            path: {
                /** @description The `id` of a vehicle. */
                vehicleId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The wear of every axle. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *       "usage": {
                     *         "kmPerDay": {
                     *           "low": 50.4,
                     *           "median": 59.88,
                     *           "high": 70.93
                     *         },
                     *         "reasons": []
                     *       },
                     *       "asAt": {
                     *         "date": "2026-03-02",
                     *         "odometerKm": 61240
                     *       },
                     *       "axles": [
                     *         {
                     *           "axle": "front",
                     *           "advice": {
                     *             "action": "fit-before",
                     *             "part": "pads",
                     *             "by": "2026-05-04",
                     *             "words": "Fit front pads before 4 May 2026.",
                     *             "why": "Right inner not measured yet, limit 3 mm (wear indicator). 44 % chance of reaching it by the next visit, about 31 August 2026.",
                     *             "rotors": "Rotors: measure the right.",
                     *             "checks": 0,
                     *             "check": null,
                     *             "status": "due before the next visit",
                     *             "urgency": "soon"
                     *           },
                     *           "pads": [
                     *             {
                     *               "side": "left",
                     *               "pad": "inner",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 6.5,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.16076,
                     *                 "median": 0.23264,
                     *                 "high": 0.59061
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.19,
                     *                 "median": 3.526,
                     *                 "high": 3.86
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             },
                     *             {
                     *               "side": "left",
                     *               "pad": "outer",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 7,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14477,
                     *                 "median": 0.21013,
                     *                 "high": 0.53161
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.652,
                     *                 "median": 3.986,
                     *                 "high": 4.318
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             },
                     *             {
                     *               "side": "right",
                     *               "pad": "inner",
                     *               "readings": 0,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14931,
                     *                 "median": 0.23568,
                     *                 "high": 0.59748
                     *               },
                     *               "remainingMm": {
                     *                 "low": 2.375,
                     *                 "median": 3.637,
                     *                 "high": 4.723
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": null,
                     *                   "conformity": null,
                     *                   "chanceOfConformity": null,
                     *                   "chanceWithPlacement": null,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": null,
                     *                   "conformity": null,
                     *                   "chanceOfConformity": null,
                     *                   "chanceWithPlacement": null,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latest",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 }
                     *               ]
                     *             },
                     *             {
                     *               "side": "right",
                     *               "pad": "outer",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latest": {
                     *                 "valueMm": 7,
                     *                 "date": "2026-03-02"
                     *               },
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.14477,
                     *                 "median": 0.21013,
                     *                 "high": 0.53161
                     *               },
                     *               "remainingMm": {
                     *                 "low": 3.652,
                     *                 "median": 3.986,
                     *                 "high": 4.318
                     *               },
                     *               "limits": [
                     *                 {
                     *                   "source": "wear-indicator",
                     *                   "rule": "thickness at which the mechanical wear indicator sounds, lights or shows",
                     *                   "limitMm": 3,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": true
                     *                 },
                     *                 {
                     *                   "source": "maker",
                     *                   "rule": "minimum thickness in the vehicle’s or part’s specification",
                     *                   "limitMm": 2,
                     *                   "failsAt": "at-or-below",
                     *                   "fails": false,
                     *                   "conformity": "conforms",
                     *                   "chanceOfConformity": 1,
                     *                   "chanceWithPlacement": 1,
                     *                   "governs": false
                     *                 }
                     *               ],
                     *               "reasons": []
                     *             }
                     *           ],
                     *           "replacement": {
                     *             "governingPad": {
                     *               "side": "right",
                     *               "pad": "inner"
                     *             },
                     *             "limitMm": 3,
                     *             "distanceKm": {
                     *               "early": 4025.2,
                     *               "lowerQuartile": 7080.9,
                     *               "median": 11579,
                     *               "upperQuartile": 16516.6,
                     *               "late": 20934.9
                     *             },
                     *             "date": {
                     *               "early": "2026-05-04",
                     *               "lowerQuartile": "2026-06-27",
                     *               "median": "2026-09-20",
                     *               "upperQuartile": "2027-01-02",
                     *               "late": "2027-05-08"
                     *             },
                     *             "overdue": false,
                     *             "basis": {
                     *               "readings": 3,
                     *               "experience": "starting-values",
                     *               "set": "unknown",
                     *               "words": "3 readings of these pads, whose fitting is not known, and typical starting values, because the shop has no learned experience yet."
                     *             },
                     *             "untilNextVisit": {
                     *               "date": "2026-08-31",
                     *               "dateSource": "policy",
                     *               "chanceLimitReached": 0.4423
                     *             },
                     *             "reasons": [
                     *               {
                     *                 "field": "governingPad",
                     *                 "code": "governing-pad-not-measured",
                     *                 "detail": "right inner was never measured; it is assumed to wear like the others"
                     *               }
                     *             ]
                     *           },
                     *           "rotors": [
                     *             {
                     *               "side": "left",
                     *               "readings": 1,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latestDate": "2026-03-02",
                     *               "thinnestMm": 27.4574,
                     *               "discardMm": 26,
                     *               "machineToMm": 26.4,
                     *               "marginMm": 1.4574,
                     *               "marginStandardUncertaintyMm": 0.002887,
                     *               "fails": false,
                     *               "conformity": "conforms",
                     *               "chanceOfConformity": 1,
                     *               "chanceWithPlacement": 1,
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": 0.0381,
                     *               "runoutConformity": "conforms",
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00636,
                     *                 "median": 0.00987,
                     *                 "high": 0.03291
                     *               },
                     *               "date": {
                     *                 "early": "2028-03-22",
                     *                 "lowerQuartile": "2030-09-04",
                     *                 "median": "2032-12-27",
                     *                 "upperQuartile": "2035-08-22",
                     *                 "late": "2039-04-26"
                     *               },
                     *               "marginAtPadReplacementMm": {
                     *                 "low": 1.064,
                     *                 "median": 1.336,
                     *                 "high": 1.443
                     *               },
                     *               "marginAfterNextPadSetMm": {
                     *                 "low": 0.2,
                     *                 "median": 1.061,
                     *                 "high": 1.336
                     *               },
                     *               "decision": "keep",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "margin",
                     *                   "detail": "thinnest point 27.457 mm, 1.457 mm above the discard thickness of 26 mm on 2026-03-02"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs readings at two points or more; 1 was measured"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs readings at two points or more; 1 was measured"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": 0.003
                     *               }
                     *             },
                     *             {
                     *               "side": "right",
                     *               "readings": 0,
                     *               "fitted": {
                     *                 "date": "2023-05-04",
                     *                 "odometerKm": 12
                     *               },
                     *               "latestDate": null,
                     *               "thinnestMm": null,
                     *               "discardMm": 26,
                     *               "machineToMm": 26.4,
                     *               "marginMm": null,
                     *               "marginStandardUncertaintyMm": null,
                     *               "fails": null,
                     *               "conformity": null,
                     *               "chanceOfConformity": null,
                     *               "chanceWithPlacement": null,
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": null,
                     *               "runoutConformity": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00608,
                     *                 "median": 0.01024,
                     *                 "high": 0.03386
                     *               },
                     *               "date": null,
                     *               "marginAtPadReplacementMm": null,
                     *               "marginAfterNextPadSetMm": null,
                     *               "decision": "measure",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement is recorded"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latestDate",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "thinnestMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "marginMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "marginStandardUncertaintyMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "conformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "chanceOfConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "chanceWithPlacement",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "no measurement of the fitted part is recorded"
                     *                 },
                     *                 {
                     *                   "field": "runoutMm",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "runoutConformity",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "date",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor"
                     *                 },
                     *                 {
                     *                   "field": "marginAtPadReplacementMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor, and a forecast of the pads"
                     *                 },
                     *                 {
                     *                   "field": "marginAfterNextPadSetMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a reading and the discard thickness of the rotor, and a forecast of the pads"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": null
                     *               }
                     *             }
                     *           ],
                     *           "drums": [],
                     *           "findings": [
                     *             {
                     *               "code": "position-never-measured",
                     *               "axle": "front",
                     *               "side": null,
                     *               "pad": null,
                     *               "severity": "note",
                     *               "message": "Never measured on this axle: right inner pad. Its forecast is based on the other linings.",
                     *               "check": "Measure every lining of this axle at its thinnest point.",
                     *               "numbers": {
                     *                 "positions": 1
                     *               }
                     *             },
                     *             {
                     *               "code": "not-measured",
                     *               "axle": "front",
                     *               "side": "right",
                     *               "pad": "inner",
                     *               "severity": "note",
                     *               "message": "Right inner lining was not measured on 2026-03-02: wheel not removed. No earlier reading of it is known either.",
                     *               "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *               "numbers": {}
                     *             }
                     *           ]
                     *         }
                     *       ],
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision but do not make it. The maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Treat brake dust as harmful. Clean it wet or with an enclosed vacuum; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque to the maker’s figure. Build up pedal pressure before the wheels turn. Bed in new parts, and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself. Put it into its service mode before you touch its calipers.",
                     *           "source": "common practice, no source"
                     *         }
                     *       ],
                     *       "reasons": []
                     *     }
                     */
                    "application/json": components["schemas"]["Wear"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getWearPicture: {
        parameters: {
            query: {
                /** @description The axle to draw. */
                axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                /** @description Answers from what was known on this date. */
                asOf?: string;
            };
            header?: {
                /** @description An ETag. The server answers 304 if nothing has changed since. */
                "If-None-Match"?: string;
            };
            path: {
                /** @description The `id` of a vehicle. */
                vehicleId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The picture. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "image/svg+xml": string;
                };
            };
            /** @description The caller already has this version. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getReplacementPlan: {
        parameters: {
            query?: {
                /** @description The dates of the coming visits, such as seasonal tyre changes. Repeat the parameter or separate the dates with commas. If missing, the next six visits by the vehicle’s own interval or the policy’s. */
                dates?: string[];
                /** @description The cost of reaching the limit before the visit: a ruined rotor, a breakdown, a lost day. */
                costTooLate?: number;
                /** @description The cost of one millimetre of wasted lining. */
                costPerMmWasted?: number;
                /** @description The maximum accepted chance of being too late, if no costs are given. If missing, the policy’s value, which is 0.1 by default. */
                chance?: number;
            };
            header?: never;
            path: {
                /** @description The `id` of a vehicle. */
                vehicleId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The plan. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *       "today": "2026-03-02",
                     *       "asAt": {
                     *         "date": "2026-03-02",
                     *         "odometerKm": 61240
                     *       },
                     *       "dateSource": "dates",
                     *       "rule": {
                     *         "kind": "least-expected-cost",
                     *         "greatestChance": null,
                     *         "costTooLate": 500,
                     *         "costPerMmWasted": 12,
                     *         "words": "The visit with the lowest expected cost: 500 times the chance that the limit is reached first, plus 12 for every millimetre of lining thrown away. It assumes that the job costs the same at each of these visits, that being late costs the same however late it is, and that nothing is measured before then. It is a forecast: check the brakes at every visit until then."
                     *       },
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision but do not make it. The maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Treat brake dust as harmful. Clean it wet or with an enclosed vacuum; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque to the maker’s figure. Build up pedal pressure before the wheels turn. Bed in new parts, and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself. Put it into its service mode before you touch its calipers.",
                     *           "source": "common practice, no source"
                     *         }
                     *       ],
                     *       "axles": [
                     *         {
                     *           "axle": "front",
                     *           "item": "pad-set",
                     *           "limitMm": 3,
                     *           "usableMm": 8,
                     *           "overdue": false,
                     *           "chanceRotorsToo": 0.0813,
                     *           "visits": [
                     *             {
                     *               "date": "2026-12-01",
                     *               "chanceTooLate": 0.6835,
                     *               "wastedMm": {
                     *                 "expected": 0.349,
                     *                 "low": 0,
                     *                 "median": 0,
                     *                 "high": 1.314
                     *               },
                     *               "wastedShare": {
                     *                 "expected": 0.0436,
                     *                 "low": 0,
                     *                 "median": 0,
                     *                 "high": 0.1643
                     *               },
                     *               "expectedCost": 345.938
                     *             },
                     *             {
                     *               "date": "2027-04-10",
                     *               "chanceTooLate": 0.8753,
                     *               "wastedMm": {
                     *                 "expected": 0.133,
                     *                 "low": 0,
                     *                 "median": 0,
                     *                 "high": 0.169
                     *               },
                     *               "wastedShare": {
                     *                 "expected": 0.0166,
                     *                 "low": 0,
                     *                 "median": 0,
                     *                 "high": 0.0211
                     *               },
                     *               "expectedCost": 439.246
                     *             }
                     *           ],
                     *           "recommended": "2026-12-01",
                     *           "words": "Likely too late: by 1 December 2026, the visit that this rule selects, at an expected cost of 345.94, the chance that the front pads have reached their limit is 68 %. Fit them before 4 May 2026.",
                     *           "reasons": [
                     *             {
                     *               "field": "recommended",
                     *               "code": "likely-too-late",
                     *               "detail": "the limit will more likely than not be reached before the visit with the lowest expected cost: choose an earlier visit"
                     *             }
                     *           ]
                     *         }
                     *       ],
                     *       "reasons": []
                     *     }
                     */
                    "application/json": components["schemas"]["ReplacementPlan"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listDueAxles: {
        parameters: {
            query?: {
                /** @description Days from today to the horizon. If missing, the policy’s value, which is 60 by default. */
                withinDays?: number;
                /** @description The minimum chance to list. If missing, the policy’s value, which is 0.1 by default. */
                chance?: number;
                /** @description Only vehicles of this fleet. */
                fleet?: string;
                /** @description Only this axle. */
                axle?: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                /** @description Sorts the items by this first, in every format. JSON also gets the totals of each group. */
                groupBy?: "fleet" | "model";
                /** @description If missing, json. CSV and iCalendar are not paged. */
                format?: "json" | "csv" | "ics";
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The due axles. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "today": "2026-03-05",
                     *       "horizon": "2026-05-04",
                     *       "chance": 0.1,
                     *       "total": 1,
                     *       "overdueCount": 0,
                     *       "byAxle": [
                     *         {
                     *           "axle": "front",
                     *           "total": 1,
                     *           "overdueCount": 0
                     *         }
                     *       ],
                     *       "unassessedCount": 0,
                     *       "measureFirstCount": 2,
                     *       "stopCount": 0,
                     *       "groups": [
                     *         {
                     *           "fleet": "north-depot",
                     *           "total": 1,
                     *           "overdueCount": 0,
                     *           "byAxle": [
                     *             {
                     *               "axle": "front",
                     *               "total": 1,
                     *               "overdueCount": 0
                     *             }
                     *           ]
                     *         }
                     *       ],
                     *       "items": [
                     *         {
                     *           "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *           "externalId": "FD-1007",
                     *           "registration": "KR 4471",
                     *           "fleet": "north-depot",
                     *           "model": "parcel-van-3t5",
                     *           "axle": "front",
                     *           "overdue": false,
                     *           "chance": 0.31,
                     *           "earlyDate": "2026-04-11",
                     *           "medianDate": "2026-05-23",
                     *           "lateDate": "2026-07-19",
                     *           "governingPad": {
                     *             "side": "left",
                     *             "pad": "inner"
                     *           },
                     *           "linings": "pads",
                     *           "limitMm": 3,
                     *           "limitSource": "wear-indicator",
                     *           "lastReadingDate": "2026-03-02",
                     *           "part": "pads",
                     *           "changedAt": "2026-03-02T09:15:00.000Z"
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["DueSoon"];
                    "text/csv": string;
                    /**
                     * @example BEGIN:VCALENDAR
                     *     VERSION:2.0
                     *     PRODID:-//brake-wear//due-soon//EN
                     *     METHOD:PUBLISH
                     *     NAME:Brakes due soon\, north-depot
                     *     X-WR-CALNAME:Brakes due soon\, north-depot
                     *     REFRESH-INTERVAL;VALUE=DURATION:PT6H
                     *     X-PUBLISHED-TTL:PT6H
                     *     BEGIN:VEVENT
                     *     UID:0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001-front
                     *     SEQUENCE:194606100
                     *     DTSTAMP:20260305T060000Z
                     *     DTSTART;VALUE=DATE:20260411
                     *     X-MICROSOFT-CDO-ALLDAYEVENT:TRUE
                     *     X-MICROSOFT-MSNCALENDAR-ALLDAYEVENT:TRUE
                     *     SUMMARY:KR 4471 (FD-1007): fit front pads
                     *     TRANSP:TRANSPARENT
                     *     DESCRIPTION:Fit front pads before 11 April 2026.\nThe first of the pads may
                     *       reach its limit from the early date on.\nEarly date (1 chance in 10 by th
                     *      en): 11 April 2026\nMedian date (1 in 2): 23 May 2026\nLate date (9 in 10)
                     *      : 19 July 2026\nChance by 4 May 2026: 31 %\nLikely the first: left inner\n
                     *      Limit: 3 mm (wear indicator)\nLast reading: 2 March 2026\nFleet: north-dep
                     *      ot\; model: parcel-van-3t5\n\nA date is a forecast from few and coarse rea
                     *      dings\; a driver\, a route or a seized slide can change it within days. Lo
                     *      ok at the brakes.\nThese figures support a decision but do not make it. Th
                     *      e maker’s instructions\, local law and licensed practice come first\, an
                     *      d no answer here says that a vehicle is fit to drive.
                     *     END:VEVENT
                     *     END:VCALENDAR
                     */
                    "text/calendar": string;
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listUnassessedAxles: {
        parameters: {
            query?: {
                /** @description Only vehicles of this fleet. */
                fleet?: string;
                /** @description If missing, json. CSV is not paged. */
                format?: "json" | "csv";
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The axles without a forecast. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "total": 0,
                     *       "items": [],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["Unassessed"];
                    "text/csv": string;
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listAxlesToMeasureFirst: {
        parameters: {
            query?: {
                /** @description Days from today to the horizon. If missing, the policy’s value, which is 60 by default. */
                withinDays?: number;
                /** @description The minimum chance to list. If missing, the policy’s value, which is 0.1 by default. */
                chance?: number;
                /** @description Only vehicles of this fleet. */
                fleet?: string;
                /** @description Only this axle. */
                axle?: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                /** @description If missing, json. CSV is not paged. */
                format?: "json" | "csv";
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The axles to measure. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "today": "2026-03-05",
                     *       "horizon": "2026-05-04",
                     *       "chance": 0.1,
                     *       "total": 1,
                     *       "items": [
                     *         {
                     *           "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *           "externalId": "FD-1007",
                     *           "registration": "KR 4471",
                     *           "fleet": "north-depot",
                     *           "model": "parcel-van-3t5",
                     *           "axle": "front",
                     *           "chance": 0.041,
                     *           "earlyDate": "2026-05-20",
                     *           "medianDate": "2026-09-14",
                     *           "lateDate": "2027-03-02",
                     *           "governingPad": {
                     *             "side": "left",
                     *             "pad": "inner"
                     *           },
                     *           "linings": "pads",
                     *           "limitMm": 3,
                     *           "limitSource": "wear-indicator",
                     *           "lastReadingDate": "2026-03-02",
                     *           "reasons": [
                     *             {
                     *               "code": "dates-too-far-apart",
                     *               "detail": "The early and late dates are 286 days apart, longer than the time between visits. The chance that the limit is reached by 2026-05-04 is 4.1 %. The next visit is expected on 2026-08-31. Measure all linings of this axle: another reading narrows its dates."
                     *             }
                     *           ]
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["MeasureFirst"];
                    "text/csv": string;
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listStoppedAxles: {
        parameters: {
            query?: {
                /** @description Days from today to the horizon. If missing, the policy’s value, which is 60 by default. */
                withinDays?: number;
                /** @description The minimum chance to list. If missing, the policy’s value, which is 0.1 by default. */
                chance?: number;
                /** @description Only vehicles of this fleet. */
                fleet?: string;
                /** @description Only this axle. */
                axle?: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                /** @description If missing, json. CSV is not paged. */
                format?: "json" | "csv";
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The axles with a stop finding. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "today": "2026-03-05",
                     *       "total": 1,
                     *       "items": [
                     *         {
                     *           "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *           "externalId": "FD-1007",
                     *           "registration": "KR 4471",
                     *           "fleet": "north-depot",
                     *           "model": "parcel-van-3t5",
                     *           "axle": "front",
                     *           "earlyDate": "2027-01-20",
                     *           "lastReadingDate": "2026-03-02",
                     *           "stops": [
                     *             {
                     *               "code": "rotor-cracked",
                     *               "side": "left",
                     *               "pad": null
                     *             }
                     *           ]
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["Stops"];
                    "text/csv": string;
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listCalendarSubscriptions: {
        parameters: {
            query?: {
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description A page of subscriptions. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de005",
                     *           "version": 1,
                     *           "chance": null,
                     *           "axle": null,
                     *           "name": "calendar of the north depot",
                     *           "withinDays": 90,
                     *           "fleet": "north-depot",
                     *           "createdBy": "depot",
                     *           "createdAt": "2026-03-02T09:15:00.000Z"
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["CalendarSubscriptionList"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    addCalendarSubscription: {
        parameters: {
            query?: never;
            header?: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["CalendarSubscriptionBody"];
            };
        };
        responses: {
            /** @description The subscription and its address. */
            201: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de005",
                     *       "version": 1,
                     *       "chance": null,
                     *       "axle": null,
                     *       "name": "calendar of the north depot",
                     *       "withinDays": 90,
                     *       "fleet": "north-depot",
                     *       "createdBy": "depot",
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "path": "/calendars/bwc_AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA.ics",
                     *       "url": null
                     *     }
                     */
                    "application/json": components["schemas"]["NewCalendarSubscription"];
                };
            };
            /** @description The request cannot be read (`malformed-request`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`); The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    revokeCalendarSubscription: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The `id` of a subscription. */
                subscriptionId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The subscription is revoked. */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getPartsDemand: {
        parameters: {
            query?: {
                /** @description The number of calendar months, including the current one. */
                months?: number;
                /** @description Only vehicles of this fleet. */
                fleet?: string;
                /** @description If missing, json. CSV is not paged. */
                format?: "json" | "csv";
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The parts needed. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "today": "2026-03-05",
                     *       "words": "In March 2026: 2.4 sets of pads and 0.7 pairs of rotors. Left out: 1 axle without a forecast. Use these figures to order parts, and still check every brake.",
                     *       "axles": 11,
                     *       "rotorsUnknownCount": 0,
                     *       "unassessedCount": 1,
                     *       "totals": [
                     *         {
                     *           "month": "2026-03",
                     *           "item": "pad-set",
                     *           "expected": 2.412,
                     *           "low": 1,
                     *           "high": 4
                     *         },
                     *         {
                     *           "month": "2026-03",
                     *           "item": "rotor-pair",
                     *           "expected": 0.73,
                     *           "low": 0,
                     *           "high": 2
                     *         }
                     *       ],
                     *       "items": [
                     *         {
                     *           "month": "2026-03",
                     *           "item": "pad-set",
                     *           "expected": 2.412,
                     *           "low": 1,
                     *           "high": 4,
                     *           "fleet": "north-depot",
                     *           "model": "parcel-van-3t5",
                     *           "axle": "front"
                     *         },
                     *         {
                     *           "month": "2026-03",
                     *           "item": "rotor-pair",
                     *           "expected": 0.73,
                     *           "low": 0,
                     *           "high": 2,
                     *           "fleet": "north-depot",
                     *           "model": "parcel-van-3t5",
                     *           "axle": "front"
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["PartsDemand"];
                    "text/csv": string;
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getForecastAccuracy: {
        parameters: {
            query?: {
                /** @description Only vehicles of this fleet. */
                fleet?: string;
                /** @description Only vehicles of this model. */
                model?: string;
                /** @description Only this axle. */
                axle?: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                /** @description If missing, json. CSV is not paged. */
                format?: "json" | "csv";
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The accuracy of past forecasts. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "words": "Of 10 forecasts for 5 sets of pads on 5 vehicles, 10 (100 %; the target is 80 %) had the day on which the first pad reached its limit between their early and late dates. In 0 it came sooner, in 0 later. Half of the median dates were off by 47 days or less; the mean error was 48. The dates were on average 48 days too early. The mean error of the dates is 31.13 times that of dates from the wear rate between new and the latest reading on the same 10 forecasts, and 37.49 times that of dates from a straight line through all readings on the same 10 forecasts. The day was between the early and late dates in 100 % of forecasts for sets that came with the vehicle and 100 % of forecasts for sets of unknown age. Of 30 pad readings on 5 vehicles with a forecast from the visit before, 100 % were inside their 80 % interval; they were off by 0.06 mm on average, gauge error included.",
                     *       "dates": {
                     *         "total": {
                     *           "vehicles": 5,
                     *           "padSets": 5,
                     *           "forecasts": 10,
                     *           "underWay": 0,
                     *           "figures": {
                     *             "interpolatedShare": 1,
                     *             "extrapolatedShare": 0,
                     *             "meanAbsoluteErrorDays": 47.8,
                     *             "medianAbsoluteErrorDays": 47.3,
                     *             "biasDays": -47.8,
                     *             "meanAbsoluteErrorKm": 5308.6,
                     *             "biasKm": -5308.6,
                     *             "inside80": 10,
                     *             "before80": 0,
                     *             "after80": 0,
                     *             "inside80Share": 1,
                     *             "inside80StandardError": 0,
                     *             "inside80ShareWithUnderWay": 1,
                     *             "againstTwoPoint": {
                     *               "forecasts": 10,
                     *               "meanAbsoluteErrorDays": 1.5,
                     *               "ratio": 31.13
                     *             },
                     *             "againstLine": {
                     *               "forecasts": 10,
                     *               "meanAbsoluteErrorDays": 1.3,
                     *               "ratio": 37.49
                     *             }
                     *           },
                     *           "reasons": []
                     *         },
                     *         "byAxleAndModel": [
                     *           {
                     *             "axle": "front",
                     *             "model": "parcel-van-3t5",
                     *             "vehicles": 5,
                     *             "padSets": 5,
                     *             "forecasts": 10,
                     *             "underWay": 0,
                     *             "figures": {
                     *               "interpolatedShare": 1,
                     *               "extrapolatedShare": 0,
                     *               "meanAbsoluteErrorDays": 47.8,
                     *               "medianAbsoluteErrorDays": 47.3,
                     *               "biasDays": -47.8,
                     *               "meanAbsoluteErrorKm": 5308.6,
                     *               "biasKm": -5308.6,
                     *               "inside80": 10,
                     *               "before80": 0,
                     *               "after80": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside80ShareWithUnderWay": 1,
                     *               "againstTwoPoint": {
                     *                 "forecasts": 10,
                     *                 "meanAbsoluteErrorDays": 1.5,
                     *                 "ratio": 31.13
                     *               },
                     *               "againstLine": {
                     *                 "forecasts": 10,
                     *                 "meanAbsoluteErrorDays": 1.3,
                     *                 "ratio": 37.49
                     *               }
                     *             },
                     *             "reasons": []
                     *           }
                     *         ],
                     *         "byReadings": [
                     *           {
                     *             "stage": "0",
                     *             "vehicles": 0,
                     *             "padSets": 0,
                     *             "forecasts": 0,
                     *             "underWay": 0,
                     *             "figures": null,
                     *             "reasons": [
                     *               {
                     *                 "field": "figures",
                     *                 "code": "too-few-pad-sets",
                     *                 "detail": "0 sets of pads can be judged; at least 5 are needed"
                     *               }
                     *             ]
                     *           },
                     *           {
                     *             "stage": "1–4",
                     *             "vehicles": 5,
                     *             "padSets": 5,
                     *             "forecasts": 5,
                     *             "underWay": 0,
                     *             "figures": {
                     *               "interpolatedShare": 1,
                     *               "extrapolatedShare": 0,
                     *               "meanAbsoluteErrorDays": 62.3,
                     *               "medianAbsoluteErrorDays": 60.1,
                     *               "biasDays": -62.3,
                     *               "meanAbsoluteErrorKm": 7224.7,
                     *               "biasKm": -7224.7,
                     *               "inside80": 5,
                     *               "before80": 0,
                     *               "after80": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside80ShareWithUnderWay": 1,
                     *               "againstTwoPoint": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 2,
                     *                 "ratio": 31.17
                     *               },
                     *               "againstLine": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 2,
                     *                 "ratio": 31.17
                     *               }
                     *             },
                     *             "reasons": []
                     *           },
                     *           {
                     *             "stage": "5–8",
                     *             "vehicles": 5,
                     *             "padSets": 5,
                     *             "forecasts": 5,
                     *             "underWay": 0,
                     *             "figures": {
                     *               "interpolatedShare": 1,
                     *               "extrapolatedShare": 0,
                     *               "meanAbsoluteErrorDays": 33.2,
                     *               "medianAbsoluteErrorDays": 32.4,
                     *               "biasDays": -33.2,
                     *               "meanAbsoluteErrorKm": 3392.4,
                     *               "biasKm": -3392.4,
                     *               "inside80": 5,
                     *               "before80": 0,
                     *               "after80": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside80ShareWithUnderWay": 1,
                     *               "againstTwoPoint": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 1.1,
                     *                 "ratio": 31.06
                     *               },
                     *               "againstLine": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 0.5,
                     *                 "ratio": null
                     *               }
                     *             },
                     *             "reasons": [
                     *               {
                     *                 "field": "figures.againstLine.ratio",
                     *                 "code": "rule-exact",
                     *                 "detail": "the simple rule was less than a day off"
                     *               }
                     *             ]
                     *           },
                     *           {
                     *             "stage": "9–16",
                     *             "vehicles": 0,
                     *             "padSets": 0,
                     *             "forecasts": 0,
                     *             "underWay": 0,
                     *             "figures": null,
                     *             "reasons": [
                     *               {
                     *                 "field": "figures",
                     *                 "code": "too-few-pad-sets",
                     *                 "detail": "0 sets of pads can be judged; at least 5 are needed"
                     *               }
                     *             ]
                     *           },
                     *           {
                     *             "stage": "17+",
                     *             "vehicles": 0,
                     *             "padSets": 0,
                     *             "forecasts": 0,
                     *             "underWay": 0,
                     *             "figures": null,
                     *             "reasons": [
                     *               {
                     *                 "field": "figures",
                     *                 "code": "too-few-pad-sets",
                     *                 "detail": "0 sets of pads can be judged; at least 5 are needed"
                     *               }
                     *             ]
                     *           }
                     *         ],
                     *         "bySet": [
                     *           {
                     *             "set": "recorded",
                     *             "vehicles": 0,
                     *             "padSets": 0,
                     *             "forecasts": 0,
                     *             "underWay": 0,
                     *             "figures": null,
                     *             "reasons": [
                     *               {
                     *                 "field": "figures",
                     *                 "code": "too-few-pad-sets",
                     *                 "detail": "0 sets of pads can be judged; at least 5 are needed"
                     *               }
                     *             ]
                     *           },
                     *           {
                     *             "set": "original",
                     *             "vehicles": 5,
                     *             "padSets": 5,
                     *             "forecasts": 5,
                     *             "underWay": 0,
                     *             "figures": {
                     *               "interpolatedShare": 1,
                     *               "extrapolatedShare": 0,
                     *               "meanAbsoluteErrorDays": 33.2,
                     *               "medianAbsoluteErrorDays": 32.4,
                     *               "biasDays": -33.2,
                     *               "meanAbsoluteErrorKm": 3392.4,
                     *               "biasKm": -3392.4,
                     *               "inside80": 5,
                     *               "before80": 0,
                     *               "after80": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside80ShareWithUnderWay": 1,
                     *               "againstTwoPoint": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 1.1,
                     *                 "ratio": 31.06
                     *               },
                     *               "againstLine": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 0.5,
                     *                 "ratio": null
                     *               }
                     *             },
                     *             "reasons": [
                     *               {
                     *                 "field": "figures.againstLine.ratio",
                     *                 "code": "rule-exact",
                     *                 "detail": "the simple rule was less than a day off"
                     *               }
                     *             ]
                     *           },
                     *           {
                     *             "set": "unknown",
                     *             "vehicles": 5,
                     *             "padSets": 5,
                     *             "forecasts": 5,
                     *             "underWay": 0,
                     *             "figures": {
                     *               "interpolatedShare": 1,
                     *               "extrapolatedShare": 0,
                     *               "meanAbsoluteErrorDays": 62.3,
                     *               "medianAbsoluteErrorDays": 60.1,
                     *               "biasDays": -62.3,
                     *               "meanAbsoluteErrorKm": 7224.7,
                     *               "biasKm": -7224.7,
                     *               "inside80": 5,
                     *               "before80": 0,
                     *               "after80": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside80ShareWithUnderWay": 1,
                     *               "againstTwoPoint": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 2,
                     *                 "ratio": 31.17
                     *               },
                     *               "againstLine": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 2,
                     *                 "ratio": 31.17
                     *               }
                     *             },
                     *             "reasons": []
                     *           },
                     *           {
                     *             "set": "perhaps-replaced",
                     *             "vehicles": 0,
                     *             "padSets": 0,
                     *             "forecasts": 0,
                     *             "underWay": 0,
                     *             "figures": null,
                     *             "reasons": [
                     *               {
                     *                 "field": "figures",
                     *                 "code": "too-few-pad-sets",
                     *                 "detail": "0 sets of pads can be judged; at least 5 are needed"
                     *               }
                     *             ]
                     *           }
                     *         ]
                     *       },
                     *       "nextReadings": {
                     *         "total": {
                     *           "vehicles": 5,
                     *           "readings": 30,
                     *           "figures": {
                     *             "meanAbsoluteErrorMm": 0.064,
                     *             "biasMm": 0.012,
                     *             "meanCrpsMm": 0.3005,
                     *             "inside50Share": 1,
                     *             "inside50StandardError": 0,
                     *             "inside80Share": 1,
                     *             "inside80StandardError": 0,
                     *             "inside95Share": 1,
                     *             "inside95StandardError": 0,
                     *             "tenthShares": [
                     *               0,
                     *               0,
                     *               0,
                     *               0,
                     *               0.5,
                     *               0.5,
                     *               0,
                     *               0,
                     *               0,
                     *               0
                     *             ]
                     *           },
                     *           "reasons": []
                     *         },
                     *         "byAxleAndModel": [
                     *           {
                     *             "axle": "front",
                     *             "model": "parcel-van-3t5",
                     *             "vehicles": 5,
                     *             "readings": 30,
                     *             "figures": {
                     *               "meanAbsoluteErrorMm": 0.064,
                     *               "biasMm": 0.012,
                     *               "meanCrpsMm": 0.3005,
                     *               "inside50Share": 1,
                     *               "inside50StandardError": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside95Share": 1,
                     *               "inside95StandardError": 0,
                     *               "tenthShares": [
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0.5,
                     *                 0.5,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0
                     *               ]
                     *             },
                     *             "reasons": []
                     *           }
                     *         ],
                     *         "byReadings": [
                     *           {
                     *             "stage": "0",
                     *             "vehicles": 0,
                     *             "readings": 0,
                     *             "figures": null,
                     *             "reasons": [
                     *               {
                     *                 "field": "figures",
                     *                 "code": "too-few-vehicles",
                     *                 "detail": "0 vehicles have a forecast and a later reading to compare it with; at least 5 are needed"
                     *               }
                     *             ]
                     *           },
                     *           {
                     *             "stage": "1–4",
                     *             "vehicles": 5,
                     *             "readings": 15,
                     *             "figures": {
                     *               "meanAbsoluteErrorMm": 0.076,
                     *               "biasMm": 0.076,
                     *               "meanCrpsMm": 0.4616,
                     *               "inside50Share": 1,
                     *               "inside50StandardError": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside95Share": 1,
                     *               "inside95StandardError": 0,
                     *               "tenthShares": [
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 1,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0
                     *               ]
                     *             },
                     *             "reasons": []
                     *           },
                     *           {
                     *             "stage": "5–8",
                     *             "vehicles": 5,
                     *             "readings": 15,
                     *             "figures": {
                     *               "meanAbsoluteErrorMm": 0.052,
                     *               "biasMm": -0.052,
                     *               "meanCrpsMm": 0.1394,
                     *               "inside50Share": 1,
                     *               "inside50StandardError": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside95Share": 1,
                     *               "inside95StandardError": 0,
                     *               "tenthShares": [
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 1,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0
                     *               ]
                     *             },
                     *             "reasons": []
                     *           },
                     *           {
                     *             "stage": "9–16",
                     *             "vehicles": 0,
                     *             "readings": 0,
                     *             "figures": null,
                     *             "reasons": [
                     *               {
                     *                 "field": "figures",
                     *                 "code": "too-few-vehicles",
                     *                 "detail": "0 vehicles have a forecast and a later reading to compare it with; at least 5 are needed"
                     *               }
                     *             ]
                     *           },
                     *           {
                     *             "stage": "17+",
                     *             "vehicles": 0,
                     *             "readings": 0,
                     *             "figures": null,
                     *             "reasons": [
                     *               {
                     *                 "field": "figures",
                     *                 "code": "too-few-vehicles",
                     *                 "detail": "0 vehicles have a forecast and a later reading to compare it with; at least 5 are needed"
                     *               }
                     *             ]
                     *           }
                     *         ],
                     *         "bySet": [
                     *           {
                     *             "set": "recorded",
                     *             "vehicles": 0,
                     *             "readings": 0,
                     *             "figures": null,
                     *             "reasons": [
                     *               {
                     *                 "field": "figures",
                     *                 "code": "too-few-vehicles",
                     *                 "detail": "0 vehicles have a forecast and a later reading to compare it with; at least 5 are needed"
                     *               }
                     *             ]
                     *           },
                     *           {
                     *             "set": "original",
                     *             "vehicles": 5,
                     *             "readings": 15,
                     *             "figures": {
                     *               "meanAbsoluteErrorMm": 0.052,
                     *               "biasMm": -0.052,
                     *               "meanCrpsMm": 0.1394,
                     *               "inside50Share": 1,
                     *               "inside50StandardError": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside95Share": 1,
                     *               "inside95StandardError": 0,
                     *               "tenthShares": [
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 1,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0
                     *               ]
                     *             },
                     *             "reasons": []
                     *           },
                     *           {
                     *             "set": "unknown",
                     *             "vehicles": 5,
                     *             "readings": 15,
                     *             "figures": {
                     *               "meanAbsoluteErrorMm": 0.076,
                     *               "biasMm": 0.076,
                     *               "meanCrpsMm": 0.4616,
                     *               "inside50Share": 1,
                     *               "inside50StandardError": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside95Share": 1,
                     *               "inside95StandardError": 0,
                     *               "tenthShares": [
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 1,
                     *                 0,
                     *                 0,
                     *                 0,
                     *                 0
                     *               ]
                     *             },
                     *             "reasons": []
                     *           },
                     *           {
                     *             "set": "perhaps-replaced",
                     *             "vehicles": 0,
                     *             "readings": 0,
                     *             "figures": null,
                     *             "reasons": [
                     *               {
                     *                 "field": "figures",
                     *                 "code": "too-few-vehicles",
                     *                 "detail": "0 vehicles have a forecast and a later reading to compare it with; at least 5 are needed"
                     *               }
                     *             ]
                     *           }
                     *         ]
                     *       },
                     *       "vehicles": 5,
                     *       "pendingVehicles": 0,
                     *       "reasons": [],
                     *       "total": 10,
                     *       "items": [
                     *         {
                     *           "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *           "externalId": "FD-1007",
                     *           "registration": "KR 4471",
                     *           "fleet": "north-depot",
                     *           "model": "parcel-van-3t5",
                     *           "axle": "front",
                     *           "forecastDate": "2024-05-04",
                     *           "readings": 6,
                     *           "set": "original",
                     *           "experience": "starting-values",
                     *           "earlyDate": "2024-05-18",
                     *           "medianDate": "2024-08-27",
                     *           "lateDate": "2024-11-24",
                     *           "reachedDate": "2024-10-09",
                     *           "howKnown": "interpolated",
                     *           "errorDays": -43.1,
                     *           "errorKm": -4298.7,
                     *           "inside80": true,
                     *           "twoPointErrorDays": -1.8,
                     *           "lineErrorDays": -0.9,
                     *           "reasons": []
                     *         }
                     *       ],
                     *       "nextCursor": "WyJleGFtcGxlIl0"
                     *     }
                     */
                    "application/json": components["schemas"]["ForecastAccuracy"];
                    "text/csv": string;
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listGauges: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description All gauges. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [
                     *         {
                     *           "id": "pad-gauge",
                     *           "version": 0,
                     *           "name": "pad-gauge",
                     *           "kind": "pad-gauge",
                     *           "resolutionMm": 0.5,
                     *           "standardUncertaintyMm": 0.14433756729740646,
                     *           "calibrationDate": null,
                     *           "calibrationDueDate": null,
                     *           "outOfDate": false
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["GaugeList"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getGauge: {
        parameters: {
            query?: never;
            header?: {
                /** @description An ETag. The server answers 304 if nothing has changed since. */
                "If-None-Match"?: string;
            };
            path: {
                /** @description The name of a gauge. Readings refer to it in `gauge`. */
                name: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The gauge. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "depth-gauge-2",
                     *       "version": 1,
                     *       "name": "depth-gauge-2",
                     *       "kind": "depth-gauge",
                     *       "resolutionMm": 0.1,
                     *       "standardUncertaintyMm": 0.05,
                     *       "calibrationDate": "2026-01-12",
                     *       "calibrationDueDate": "2027-01-12",
                     *       "outOfDate": false
                     *     }
                     */
                    "application/json": components["schemas"]["Gauge"];
                };
            };
            /** @description The caller already has this version. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    setGauge: {
        parameters: {
            query?: never;
            header?: {
                /** @description The ETag of the version to change. */
                "If-Match"?: string;
            };
            path: {
                /** @description The name of a gauge. Readings refer to it in `gauge`. */
                name: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["GaugeBody"];
            };
        };
        responses: {
            /** @description The changed gauge. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "depth-gauge-2",
                     *       "version": 1,
                     *       "name": "depth-gauge-2",
                     *       "kind": "depth-gauge",
                     *       "resolutionMm": 0.1,
                     *       "standardUncertaintyMm": 0.05,
                     *       "calibrationDate": "2026-01-12",
                     *       "calibrationDueDate": "2027-01-12",
                     *       "outOfDate": false
                     *     }
                     */
                    "application/json": components["schemas"]["Gauge"];
                };
            };
            /** @description The added gauge. */
            201: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "depth-gauge-2",
                     *       "version": 1,
                     *       "name": "depth-gauge-2",
                     *       "kind": "depth-gauge",
                     *       "resolutionMm": 0.1,
                     *       "standardUncertaintyMm": 0.05,
                     *       "calibrationDate": "2026-01-12",
                     *       "calibrationDueDate": "2027-01-12",
                     *       "outOfDate": false
                     *     }
                     */
                    "application/json": components["schemas"]["Gauge"];
                };
            };
            /** @description The request cannot be read (`malformed-request`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The resource has changed since it was read (`stale-version`) */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description If-Match is needed (`precondition-needed`) */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getPolicy: {
        parameters: {
            query?: never;
            header?: {
                /** @description An ETag. The server answers 304 if nothing has changed since. */
                "If-None-Match"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The policy in force. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "policy",
                     *       "version": 1,
                     *       "ruleSets": [
                     *         "uk-inspection-manual"
                     *       ],
                     *       "dueSoon": {
                     *         "withinDays": 60,
                     *         "chance": 0.1
                     *       },
                     *       "visitIntervalDays": 182,
                     *       "longestDaysWithoutReading": 365,
                     *       "retentionYears": null,
                     *       "beforeTransfer": {
                     *         "readings": true,
                     *         "notes": false,
                     *         "names": false,
                     *         "fleets": false
                     *       },
                     *       "padMinimum": {
                     *         "value": 3,
                     *         "unit": "mm",
                     *         "mm": 3
                     *       },
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedBy": "owner-1"
                     *     }
                     */
                    "application/json": components["schemas"]["Policy"];
                };
            };
            /** @description The caller already has this version. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    setPolicy: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag of the version to change. */
                "If-Match": string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PolicyBody"];
            };
        };
        responses: {
            /** @description The new policy. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "policy",
                     *       "version": 1,
                     *       "ruleSets": [
                     *         "uk-inspection-manual"
                     *       ],
                     *       "dueSoon": {
                     *         "withinDays": 60,
                     *         "chance": 0.1
                     *       },
                     *       "visitIntervalDays": 182,
                     *       "longestDaysWithoutReading": 365,
                     *       "retentionYears": null,
                     *       "beforeTransfer": {
                     *         "readings": true,
                     *         "notes": false,
                     *         "names": false,
                     *         "fleets": false
                     *       },
                     *       "padMinimum": {
                     *         "value": 3,
                     *         "unit": "mm",
                     *         "mm": 3
                     *       },
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedBy": "owner-1"
                     *     }
                     */
                    "application/json": components["schemas"]["Policy"];
                };
            };
            /** @description The request cannot be read (`malformed-request`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The resource has changed since it was read (`stale-version`) */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description If-Match is needed (`precondition-needed`) */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listRuleSets: {
        parameters: {
            query?: {
                /** @description The `id` of a vehicle. */
                vehicleId?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The rule sets. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [
                     *         {
                     *           "id": "49-cfr-393-47",
                     *           "name": "49 CFR 393.47",
                     *           "jurisdiction": "United States, federal",
                     *           "appliesTo": "commercial motor vehicles: by gross mass or, whatever their mass, by the passengers or dangerous goods that they carry, which this service does not record",
                     *           "grossMass": "4,536 kg (10,001 lb) or more",
                     *           "figures": "the millimetres printed, each a little more than the inches printed beside it",
                     *           "chosen": false,
                     *           "notOpened": "the official site: the paragraph was read in a copy; that (d)(1) covers only trucks, tractors and buses was read in a second copy",
                     *           "rules": [
                     *             {
                     *               "id": "49-cfr-393-47-d-1-air-drum-one-strip",
                     *               "parts": [
                     *                 "shoe"
                     *               ],
                     *               "actuations": [
                     *                 "air"
                     *               ],
                     *               "linings": null,
                     *               "steered": true,
                     *               "clause": "steered axle of a truck, tractor or bus, air drum brake, one continuous strip of lining a shoe: not less than this at the shoe centre, nor worn to the wear indicator",
                     *               "decidedBy": [
                     *                 "figure",
                     *                 "wear-indicator"
                     *               ],
                     *               "printed": "4.8 mm (3/16 in)",
                     *               "limitMm": 4.8,
                     *               "failsAt": "below",
                     *               "result": null,
                     *               "source": {
                     *                 "title": "49 CFR 393.47, Brake actuators, slack adjusters, linings/pads and drums/rotors",
                     *                 "section": "(d)(1)",
                     *                 "edition": "70 FR 48008 of 15 August 2005, which wrote paragraph (d)",
                     *                 "read": "2026-11",
                     *                 "link": "https://www.ecfr.gov/current/title-49/section-393.47"
                     *               }
                     *             },
                     *             {
                     *               "id": "49-cfr-393-47-d-1-air-drum-two-pads",
                     *               "parts": [
                     *                 "shoe"
                     *               ],
                     *               "actuations": [
                     *                 "air"
                     *               ],
                     *               "linings": null,
                     *               "steered": true,
                     *               "clause": "steered axle of a truck, tractor or bus, air drum brake, two pads a shoe: not less than this at the shoe centre, nor worn to the wear indicator",
                     *               "decidedBy": [
                     *                 "figure",
                     *                 "wear-indicator"
                     *               ],
                     *               "printed": "6.4 mm (1/4 in)",
                     *               "limitMm": 6.4,
                     *               "failsAt": "below",
                     *               "result": null,
                     *               "source": {
                     *                 "title": "49 CFR 393.47, Brake actuators, slack adjusters, linings/pads and drums/rotors",
                     *                 "section": "(d)(1)",
                     *                 "edition": "70 FR 48008 of 15 August 2005, which wrote paragraph (d)",
                     *                 "read": "2026-11",
                     *                 "link": "https://www.ecfr.gov/current/title-49/section-393.47"
                     *               }
                     *             },
                     *             {
                     *               "id": "49-cfr-393-47-d-1-air-disc",
                     *               "parts": [
                     *                 "pad"
                     *               ],
                     *               "actuations": [
                     *                 "air"
                     *               ],
                     *               "linings": null,
                     *               "steered": true,
                     *               "clause": "steered axle of a truck, tractor or bus, air disc brake: not less than this",
                     *               "decidedBy": [
                     *                 "figure"
                     *               ],
                     *               "printed": "3.2 mm (1/8 in)",
                     *               "limitMm": 3.2,
                     *               "failsAt": "below",
                     *               "result": null,
                     *               "source": {
                     *                 "title": "49 CFR 393.47, Brake actuators, slack adjusters, linings/pads and drums/rotors",
                     *                 "section": "(d)(1)",
                     *                 "edition": "70 FR 48008 of 15 August 2005, which wrote paragraph (d)",
                     *                 "read": "2026-11",
                     *                 "link": "https://www.ecfr.gov/current/title-49/section-393.47"
                     *               }
                     *             },
                     *             {
                     *               "id": "49-cfr-393-47-d-1-hydraulic",
                     *               "parts": [
                     *                 "pad",
                     *                 "shoe"
                     *               ],
                     *               "actuations": [
                     *                 "hydraulic",
                     *                 "electric"
                     *               ],
                     *               "linings": null,
                     *               "steered": true,
                     *               "clause": "steered axle of a truck, tractor or bus, hydraulic disc or drum brake, or electric brake: more than this",
                     *               "decidedBy": [
                     *                 "figure"
                     *               ],
                     *               "printed": "1.6 mm (1/16 in) or less",
                     *               "limitMm": 1.6,
                     *               "failsAt": "at-or-below",
                     *               "result": null,
                     *               "source": {
                     *                 "title": "49 CFR 393.47, Brake actuators, slack adjusters, linings/pads and drums/rotors",
                     *                 "section": "(d)(1)",
                     *                 "edition": "70 FR 48008 of 15 August 2005, which wrote paragraph (d)",
                     *                 "read": "2026-11",
                     *                 "link": "https://www.ecfr.gov/current/title-49/section-393.47"
                     *               }
                     *             },
                     *             {
                     *               "id": "49-cfr-393-47-d-2-air-drum",
                     *               "parts": [
                     *                 "shoe"
                     *               ],
                     *               "actuations": [
                     *                 "air"
                     *               ],
                     *               "linings": null,
                     *               "steered": false,
                     *               "clause": "axle not steered, or of a trailer, air drum brake: not less than this at the shoe centre, nor worn to the wear indicator if the lining is marked with one",
                     *               "decidedBy": [
                     *                 "figure",
                     *                 "wear-indicator"
                     *               ],
                     *               "printed": "6.4 mm (1/4 in)",
                     *               "limitMm": 6.4,
                     *               "failsAt": "below",
                     *               "result": null,
                     *               "source": {
                     *                 "title": "49 CFR 393.47, Brake actuators, slack adjusters, linings/pads and drums/rotors",
                     *                 "section": "(d)(2)",
                     *                 "edition": "70 FR 48008 of 15 August 2005, which wrote paragraph (d)",
                     *                 "read": "2026-11",
                     *                 "link": "https://www.ecfr.gov/current/title-49/section-393.47"
                     *               }
                     *             },
                     *             {
                     *               "id": "49-cfr-393-47-d-2-air-disc",
                     *               "parts": [
                     *                 "pad"
                     *               ],
                     *               "actuations": [
                     *                 "air"
                     *               ],
                     *               "linings": null,
                     *               "steered": false,
                     *               "clause": "axle not steered, or of a trailer, air disc brake: not less than this",
                     *               "decidedBy": [
                     *                 "figure"
                     *               ],
                     *               "printed": "3.2 mm (1/8 in)",
                     *               "limitMm": 3.2,
                     *               "failsAt": "below",
                     *               "result": null,
                     *               "source": {
                     *                 "title": "49 CFR 393.47, Brake actuators, slack adjusters, linings/pads and drums/rotors",
                     *                 "section": "(d)(2)",
                     *                 "edition": "70 FR 48008 of 15 August 2005, which wrote paragraph (d)",
                     *                 "read": "2026-11",
                     *                 "link": "https://www.ecfr.gov/current/title-49/section-393.47"
                     *               }
                     *             },
                     *             {
                     *               "id": "49-cfr-393-47-d-2-hydraulic",
                     *               "parts": [
                     *                 "pad",
                     *                 "shoe"
                     *               ],
                     *               "actuations": [
                     *                 "hydraulic",
                     *                 "electric"
                     *               ],
                     *               "linings": null,
                     *               "steered": false,
                     *               "clause": "axle not steered, or of a trailer, hydraulic or electric disc or drum brake: not less than this, on shoes at the shoe centre",
                     *               "decidedBy": [
                     *                 "figure"
                     *               ],
                     *               "printed": "1.6 mm (1/16 in)",
                     *               "limitMm": 1.6,
                     *               "failsAt": "below",
                     *               "result": null,
                     *               "source": {
                     *                 "title": "49 CFR 393.47, Brake actuators, slack adjusters, linings/pads and drums/rotors",
                     *                 "section": "(d)(2)",
                     *                 "edition": "70 FR 48008 of 15 August 2005, which wrote paragraph (d)",
                     *                 "read": "2026-11",
                     *                 "link": "https://www.ecfr.gov/current/title-49/section-393.47"
                     *               }
                     *             }
                     *           ]
                     *         }
                     *       ],
                     *       "nextCursor": null,
                     *       "vehicle": {
                     *         "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *         "axles": [
                     *           {
                     *             "axle": "front",
                     *             "ruleSets": [
                     *               {
                     *                 "ruleSet": "49-cfr-393-47",
                     *                 "chosen": false,
                     *                 "applies": "does-not-apply",
                     *                 "rules": [],
                     *                 "reasons": [
                     *                   {
                     *                     "field": "limits",
                     *                     "code": "below-mass",
                     *                     "detail": "49 CFR 393.47: applies from a gross mass of 4,536 kg (10,001 lb) or more, and this vehicle is below it; the set may still apply because of what the vehicle carries or tows, which this service does not record"
                     *                   }
                     *                 ]
                     *               }
                     *             ]
                     *           }
                     *         ]
                     *       },
                     *       "notes": [
                     *         {
                     *           "code": "local-law-and-licence",
                     *           "message": "Which rules bind a vehicle and what follows from a figure is for local law and licensed practice to decide; the edition on the official site counts, not this copy. No answer here says that a vehicle is fit to drive."
                     *         },
                     *         {
                     *           "code": "not-exhaustive",
                     *           "message": "This list has only figures that were read in the named source. Other rules may still apply: other jurisdictions, other sections, and rules about cracks, contamination and damage, which a thickness does not show."
                     *         },
                     *         {
                     *           "code": "rotor-figures",
                     *           "message": "A rotor below its maker’s figure, or a drum above it, is not by itself an inspection failure in every jurisdiction. Under some sets the marked or maker’s figure decides, under others the inspector. The UK manual says that it is not in itself a reason to fail. The maker’s instruction to discard the part applies all the same."
                     *         },
                     *         {
                     *           "code": "linings-at-the-figure",
                     *           "message": "Whether a reading exactly at the figure fails follows the source’s wording. With ‘or less’ and ‘worn to’ it fails (at-or-below); with ‘less than’ and ‘at least’ it does not (below)."
                     *         }
                     *       ]
                     *     }
                     */
                    "application/json": components["schemas"]["LimitList"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listExperiences: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The fits. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["ExperienceList"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    importVisits: {
        parameters: {
            query?: {
                /** @description Checks the whole file and imports nothing. */
                dryRun?: boolean;
                /** @description The date format of the file. If missing, YYYY-MM-DD. The server never guesses the format. */
                dates?: "YYYY-MM-DD" | "DD.MM.YYYY" | "DD/MM/YYYY" | "MM/DD/YYYY";
            };
            header?: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
                /** @description With `respond-async` (RFC 7240), the server answers 202 once it has received the file and imports it in the background. */
                Prefer?: string;
            };
            path?: never;
            cookie?: never;
        };
        /** @description The spreadsheet; at most 200 MiB. */
        requestBody: {
            content: {
                /**
                 * @example vehicle,date,odometer,odometerUnit,workOrder,entry,axle,side,pad,value,unit,gauge
                 *     FD-1007,2026-03-02,61240,km,WO-20817,pad-thickness,front,left,inner,6.5,mm,pad-gauge
                 *     FD-1007,2026-03-02,61240,km,WO-20817,pad-thickness,front,left,outer,7,mm,pad-gauge
                 */
                "text/csv": string;
            };
        };
        responses: {
            /** @description A dry run without errors, or a file that added nothing. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de003",
                     *       "version": 5,
                     *       "kind": "visits",
                     *       "dryRun": true,
                     *       "state": "done",
                     *       "detail": null,
                     *       "by": "front-desk-1",
                     *       "rows": 2,
                     *       "vehicles": 1,
                     *       "vehiclesChecked": 1,
                     *       "vehiclesForecast": 1,
                     *       "vehiclesWritten": 1,
                     *       "visitsAdded": 1,
                     *       "visitsExtended": 0,
                     *       "rowsAdded": 2,
                     *       "rowsSkipped": 0,
                     *       "errorsTotal": 0,
                     *       "errors": [],
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "finishedAt": "2026-03-02T09:15:00.000Z"
                     *     }
                     */
                    "application/json": components["schemas"]["Import"];
                };
            };
            /** @description The whole file was imported. */
            201: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de003",
                     *       "version": 5,
                     *       "kind": "visits",
                     *       "dryRun": false,
                     *       "state": "done",
                     *       "detail": null,
                     *       "by": "front-desk-1",
                     *       "rows": 2,
                     *       "vehicles": 1,
                     *       "vehiclesChecked": 1,
                     *       "vehiclesForecast": 1,
                     *       "vehiclesWritten": 1,
                     *       "visitsAdded": 1,
                     *       "visitsExtended": 0,
                     *       "rowsAdded": 2,
                     *       "rowsSkipped": 0,
                     *       "errorsTotal": 0,
                     *       "errors": [],
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "finishedAt": "2026-03-02T09:15:00.000Z"
                     *     }
                     */
                    "application/json": components["schemas"]["Import"];
                };
            };
            /** @description The server has received the file and is importing it. `Location` holds the address of the import. */
            202: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de003",
                     *       "version": 5,
                     *       "kind": "visits",
                     *       "dryRun": false,
                     *       "state": "receiving",
                     *       "detail": null,
                     *       "by": "front-desk-1",
                     *       "rows": 2,
                     *       "vehicles": 1,
                     *       "vehiclesChecked": 1,
                     *       "vehiclesForecast": 1,
                     *       "vehiclesWritten": 1,
                     *       "visitsAdded": 1,
                     *       "visitsExtended": 0,
                     *       "rowsAdded": 2,
                     *       "rowsSkipped": 0,
                     *       "errorsTotal": 0,
                     *       "errors": [],
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "finishedAt": null
                     *     }
                     */
                    "application/json": components["schemas"]["Import"];
                };
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The file has errors and nothing was imported (`import-refused`); The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    importVehicles: {
        parameters: {
            query?: {
                /** @description Checks the whole file and imports nothing. */
                dryRun?: boolean;
            };
            header?: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
                /** @description With `respond-async` (RFC 7240), the server answers 202 once it has received the file and imports it in the background. */
                Prefer?: string;
            };
            path?: never;
            cookie?: never;
        };
        /** @description The vehicles; at most 200 MiB. */
        requestBody: {
            content: {
                /** @example {"externalId":"FD-1007","registration":"KR 4471","description":"long-wheelbase parcel van","model":"parcel-van-3t5","fleet":"north-depot","powertrain":"combustion","grossMass":{"value":3500,"unit":"kg"},"brakeSystem":{"regenerative":false,"brakeByWire":false,"electricParkingBrake":true},"inService":{"date":"2023-05-04","odometer":{"value":12,"unit":"km"}},"axles":{"front":{"brake":"disc","actuation":"hydraulic","steered":true,"lining":"bonded","pad":{"new":{"value":11,"unit":"mm"},"limit":{"value":2,"unit":"mm"},"wearIndicator":{"value":3,"unit":"mm","type":"mechanical"}},"rotor":{"new":{"value":28,"unit":"mm"},"discard":{"value":26,"unit":"mm"},"machineTo":{"value":26.4,"unit":"mm"},"runoutLimit":{"value":0.05,"unit":"mm"},"variationLimit":{"value":0.02,"unit":"mm"}},"torque":{"caliper-bracket-bolt":{"value":120,"unit":"Nm","tolerance":{"value":10,"unit":"Nm"}}}}}} */
                "application/x-ndjson": string;
            };
        };
        responses: {
            /** @description A dry run without errors, or a file that added nothing. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de003",
                     *       "version": 5,
                     *       "kind": "visits",
                     *       "dryRun": true,
                     *       "state": "done",
                     *       "detail": null,
                     *       "by": "front-desk-1",
                     *       "rows": 2,
                     *       "vehicles": 1,
                     *       "vehiclesChecked": 1,
                     *       "vehiclesForecast": 1,
                     *       "vehiclesWritten": 1,
                     *       "visitsAdded": 1,
                     *       "visitsExtended": 0,
                     *       "rowsAdded": 2,
                     *       "rowsSkipped": 0,
                     *       "errorsTotal": 0,
                     *       "errors": [],
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "finishedAt": "2026-03-02T09:15:00.000Z"
                     *     }
                     */
                    "application/json": components["schemas"]["Import"];
                };
            };
            /** @description The whole file was imported. */
            201: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de003",
                     *       "version": 5,
                     *       "kind": "visits",
                     *       "dryRun": false,
                     *       "state": "done",
                     *       "detail": null,
                     *       "by": "front-desk-1",
                     *       "rows": 2,
                     *       "vehicles": 1,
                     *       "vehiclesChecked": 1,
                     *       "vehiclesForecast": 1,
                     *       "vehiclesWritten": 1,
                     *       "visitsAdded": 1,
                     *       "visitsExtended": 0,
                     *       "rowsAdded": 2,
                     *       "rowsSkipped": 0,
                     *       "errorsTotal": 0,
                     *       "errors": [],
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "finishedAt": "2026-03-02T09:15:00.000Z"
                     *     }
                     */
                    "application/json": components["schemas"]["Import"];
                };
            };
            /** @description The server has received the file and is importing it. `Location` holds the address of the import. */
            202: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de003",
                     *       "version": 5,
                     *       "kind": "visits",
                     *       "dryRun": false,
                     *       "state": "receiving",
                     *       "detail": null,
                     *       "by": "front-desk-1",
                     *       "rows": 2,
                     *       "vehicles": 1,
                     *       "vehiclesChecked": 1,
                     *       "vehiclesForecast": 1,
                     *       "vehiclesWritten": 1,
                     *       "visitsAdded": 1,
                     *       "visitsExtended": 0,
                     *       "rowsAdded": 2,
                     *       "rowsSkipped": 0,
                     *       "errorsTotal": 0,
                     *       "errors": [],
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "finishedAt": null
                     *     }
                     */
                    "application/json": components["schemas"]["Import"];
                };
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The file has errors and nothing was imported (`import-refused`); The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listImports: {
        parameters: {
            query?: {
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description A page of imports. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de003",
                     *           "version": 5,
                     *           "kind": "visits",
                     *           "dryRun": false,
                     *           "state": "done",
                     *           "detail": null,
                     *           "by": "front-desk-1",
                     *           "rows": 2,
                     *           "vehicles": 1,
                     *           "vehiclesChecked": 1,
                     *           "vehiclesForecast": 1,
                     *           "vehiclesWritten": 1,
                     *           "visitsAdded": 1,
                     *           "visitsExtended": 0,
                     *           "rowsAdded": 2,
                     *           "rowsSkipped": 0,
                     *           "errorsTotal": 0,
                     *           "errors": [],
                     *           "createdAt": "2026-03-02T09:15:00.000Z",
                     *           "finishedAt": "2026-03-02T09:15:00.000Z"
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["ImportList"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getImport: {
        parameters: {
            query?: never;
            header?: {
                /** @description An ETag. The server answers 304 if nothing has changed since. */
                "If-None-Match"?: string;
            };
            path: {
                /** @description The `id` of an import. */
                importId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The import. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de003",
                     *       "version": 5,
                     *       "kind": "visits",
                     *       "dryRun": false,
                     *       "state": "done",
                     *       "detail": null,
                     *       "by": "front-desk-1",
                     *       "rows": 2,
                     *       "vehicles": 1,
                     *       "vehiclesChecked": 1,
                     *       "vehiclesForecast": 1,
                     *       "vehiclesWritten": 1,
                     *       "visitsAdded": 1,
                     *       "visitsExtended": 0,
                     *       "rowsAdded": 2,
                     *       "rowsSkipped": 0,
                     *       "errorsTotal": 0,
                     *       "errors": [],
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "finishedAt": "2026-03-02T09:15:00.000Z"
                     *     }
                     */
                    "application/json": components["schemas"]["Import"];
                };
            };
            /** @description The caller already has this version. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    exportVisits: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The spreadsheet, RFC 4180. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example vehicle,date,odometer,odometerUnit,workOrder,entry,axle,side,pad,value,unit,gauge
                     *     FD-1007,2026-03-02,61240,km,WO-20817,pad-thickness,front,left,inner,6.5,mm,pad-gauge
                     *     FD-1007,2026-03-02,61240,km,WO-20817,pad-thickness,front,left,outer,7,mm,pad-gauge
                     */
                    "text/csv": string;
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    exportVehicles: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The vehicles. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /** @example {"externalId":"FD-1007","registration":"KR 4471","description":"long-wheelbase parcel van","model":"parcel-van-3t5","fleet":"north-depot","powertrain":"combustion","grossMass":{"value":3500,"unit":"kg"},"brakeSystem":{"regenerative":false,"brakeByWire":false,"electricParkingBrake":true},"inService":{"date":"2023-05-04","odometer":{"value":12,"unit":"km"}},"axles":{"front":{"brake":"disc","actuation":"hydraulic","steered":true,"lining":"bonded","pad":{"new":{"value":11,"unit":"mm"},"limit":{"value":2,"unit":"mm"},"wearIndicator":{"value":3,"unit":"mm","type":"mechanical"}},"rotor":{"new":{"value":28,"unit":"mm"},"discard":{"value":26,"unit":"mm"},"machineTo":{"value":26.4,"unit":"mm"},"runoutLimit":{"value":0.05,"unit":"mm"},"variationLimit":{"value":0.02,"unit":"mm"}},"torque":{"caliper-bracket-bolt":{"value":120,"unit":"Nm","tolerance":{"value":10,"unit":"Nm"}}}}}} */
                    "application/x-ndjson": string;
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listWebhookEndpoints: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description All endpoints. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004",
                     *           "version": 1,
                     *           "url": "https://desk.example.com/hooks/brakes",
                     *           "eventTypes": [
                     *             "axle.due",
                     *             "limit.passed"
                     *           ],
                     *           "fleets": [
                     *             "north-depot"
                     *           ],
                     *           "enabled": true,
                     *           "disabledBecause": null,
                     *           "previousSecretUntil": null,
                     *           "createdAt": "2026-03-02T09:15:00.000Z",
                     *           "updatedAt": "2026-03-02T09:15:00.000Z"
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["WebhookEndpointList"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    addWebhookEndpoint: {
        parameters: {
            query?: never;
            header?: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["WebhookEndpointBody"];
            };
        };
        responses: {
            /** @description The endpoint with its secret. */
            201: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004",
                     *       "version": 1,
                     *       "url": "https://desk.example.com/hooks/brakes",
                     *       "eventTypes": [
                     *         "axle.due",
                     *         "limit.passed"
                     *       ],
                     *       "fleets": [
                     *         "north-depot"
                     *       ],
                     *       "enabled": true,
                     *       "disabledBecause": null,
                     *       "previousSecretUntil": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "secret": "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw"
                     *     }
                     */
                    "application/json": components["schemas"]["WebhookEndpointWithSecret"];
                };
            };
            /** @description The request cannot be read (`malformed-request`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The maximum number of webhook endpoints is reached (`too-many-webhook-endpoints`); A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`); The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getWebhookEndpoint: {
        parameters: {
            query?: never;
            header?: {
                /** @description An ETag. The server answers 304 if nothing has changed since. */
                "If-None-Match"?: string;
            };
            path: {
                /** @description The `id` of a webhook endpoint. */
                endpointId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The endpoint. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004",
                     *       "version": 1,
                     *       "url": "https://desk.example.com/hooks/brakes",
                     *       "eventTypes": [
                     *         "axle.due",
                     *         "limit.passed"
                     *       ],
                     *       "fleets": [
                     *         "north-depot"
                     *       ],
                     *       "enabled": true,
                     *       "disabledBecause": null,
                     *       "previousSecretUntil": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z"
                     *     }
                     */
                    "application/json": components["schemas"]["WebhookEndpoint"];
                };
            };
            /** @description The caller already has this version. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    removeWebhookEndpoint: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The `id` of a webhook endpoint. */
                endpointId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The endpoint is deleted. */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    changeWebhookEndpoint: {
        parameters: {
            query?: never;
            header: {
                /** @description The ETag of the version to change. */
                "If-Match": string;
            };
            path: {
                /** @description The `id` of a webhook endpoint. */
                endpointId: string;
            };
            cookie?: never;
        };
        /** @description Any part of a WebhookEndpointBody. */
        requestBody: {
            content: {
                /**
                 * @example {
                 *       "enabled": false
                 *     }
                 */
                "application/merge-patch+json": {
                    [key: string]: unknown;
                };
            };
        };
        responses: {
            /** @description The changed endpoint. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004",
                     *       "version": 2,
                     *       "url": "https://desk.example.com/hooks/brakes",
                     *       "eventTypes": [
                     *         "axle.due",
                     *         "limit.passed"
                     *       ],
                     *       "fleets": [
                     *         "north-depot"
                     *       ],
                     *       "enabled": true,
                     *       "disabledBecause": null,
                     *       "previousSecretUntil": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z"
                     *     }
                     */
                    "application/json": components["schemas"]["WebhookEndpoint"];
                };
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The resource has changed since it was read (`stale-version`) */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description If-Match is needed (`precondition-needed`) */
            428: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    rotateWebhookSecret: {
        parameters: {
            query?: never;
            header?: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
            };
            path: {
                /** @description The `id` of a webhook endpoint. */
                endpointId: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["SecretRotationBody"];
            };
        };
        responses: {
            /** @description The endpoint with its new secret. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004",
                     *       "version": 2,
                     *       "url": "https://desk.example.com/hooks/brakes",
                     *       "eventTypes": [
                     *         "axle.due",
                     *         "limit.passed"
                     *       ],
                     *       "fleets": [
                     *         "north-depot"
                     *       ],
                     *       "enabled": true,
                     *       "disabledBecause": null,
                     *       "previousSecretUntil": "2026-03-03T09:15:00.000Z",
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "updatedAt": "2026-03-02T09:15:00.000Z",
                     *       "secret": "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw"
                     *     }
                     */
                    "application/json": components["schemas"]["WebhookEndpointWithSecret"];
                };
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The request is well-formed but not valid (`invalid`); The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    testWebhookEndpoint: {
        parameters: {
            query?: never;
            header?: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
            };
            path: {
                /** @description The `id` of a webhook endpoint. */
                endpointId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The delivery, pending. */
            202: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de005",
                     *       "version": 2,
                     *       "endpointId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004",
                     *       "webhookId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de006",
                     *       "type": "axle.due",
                     *       "status": "pending",
                     *       "attempts": [
                     *         {
                     *           "at": "2026-03-02T09:15:00.412Z",
                     *           "status": 503,
                     *           "detail": "try later"
                     *         }
                     *       ],
                     *       "nextAttemptAt": "2026-03-02T09:15:05.602Z",
                     *       "deliveredAt": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "event": {
                     *         "type": "axle.due",
                     *         "timestamp": "2026-03-02T09:15:00.000Z",
                     *         "data": {
                     *           "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *           "externalId": "FD-1007",
                     *           "fleet": "north-depot",
                     *           "model": "parcel-van-3t5",
                     *           "axle": "front",
                     *           "overdue": false,
                     *           "chance": 0.31,
                     *           "horizon": "2026-05-01",
                     *           "earlyDate": "2026-04-11",
                     *           "medianDate": "2026-05-23",
                     *           "lateDate": "2026-07-19",
                     *           "governingPad": {
                     *             "side": "left",
                     *             "pad": "inner"
                     *           },
                     *           "linings": "pads",
                     *           "limitMm": 3,
                     *           "limitSource": "wear-indicator",
                     *           "lastReadingDate": "2026-03-02",
                     *           "part": "pads",
                     *           "message": "Fit front pads before 11 April 2026. The chance that one of the pads reaches 3 mm (wear indicator) by 1 May 2026 is 31 %. Early date 11 April 2026, median 23 May 2026, late 19 July 2026.",
                     *           "caution": "This is a forecast from few and coarse readings and can change within days. It supports a decision and does not make it. Look at the brakes; the maker’s instructions, local law and licensed practice come first."
                     *         }
                     *       }
                     *     }
                     */
                    "application/json": components["schemas"]["WebhookDelivery"];
                };
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The webhook endpoint is disabled (`webhook-endpoint-disabled`); A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    listWebhookDeliveries: {
        parameters: {
            query?: {
                /** @description Only deliveries to this endpoint. */
                endpointId?: string;
                /** @description Only deliveries in this state. */
                status?: "pending" | "delivered" | "given-up";
                /** @description Only deliveries of this event. */
                type?: "axle.due" | "limit.passed" | "reading.off_forecast" | "webhook.test";
                /** @description Items per page. */
                limit?: number;
                /** @description The `nextCursor` of the previous page. Send it with the same other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description A page of deliveries. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "items": [
                     *         {
                     *           "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de005",
                     *           "version": 2,
                     *           "endpointId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004",
                     *           "webhookId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de006",
                     *           "type": "axle.due",
                     *           "status": "pending",
                     *           "attempts": [
                     *             {
                     *               "at": "2026-03-02T09:15:00.412Z",
                     *               "status": 503,
                     *               "detail": "try later"
                     *             }
                     *           ],
                     *           "nextAttemptAt": "2026-03-02T09:15:05.602Z",
                     *           "deliveredAt": null,
                     *           "createdAt": "2026-03-02T09:15:00.000Z",
                     *           "event": {
                     *             "type": "axle.due",
                     *             "timestamp": "2026-03-02T09:15:00.000Z",
                     *             "data": {
                     *               "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *               "externalId": "FD-1007",
                     *               "fleet": "north-depot",
                     *               "model": "parcel-van-3t5",
                     *               "axle": "front",
                     *               "overdue": false,
                     *               "chance": 0.31,
                     *               "horizon": "2026-05-01",
                     *               "earlyDate": "2026-04-11",
                     *               "medianDate": "2026-05-23",
                     *               "lateDate": "2026-07-19",
                     *               "governingPad": {
                     *                 "side": "left",
                     *                 "pad": "inner"
                     *               },
                     *               "linings": "pads",
                     *               "limitMm": 3,
                     *               "limitSource": "wear-indicator",
                     *               "lastReadingDate": "2026-03-02",
                     *               "part": "pads",
                     *               "message": "Fit front pads before 11 April 2026. The chance that one of the pads reaches 3 mm (wear indicator) by 1 May 2026 is 31 %. Early date 11 April 2026, median 23 May 2026, late 19 July 2026.",
                     *               "caution": "This is a forecast from few and coarse readings and can change within days. It supports a decision and does not make it. Look at the brakes; the maker’s instructions, local law and licensed practice come first."
                     *             }
                     *           }
                     *         }
                     *       ],
                     *       "nextCursor": null
                     *     }
                     */
                    "application/json": components["schemas"]["WebhookDeliveryList"];
                };
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    getWebhookDelivery: {
        parameters: {
            query?: never;
            header?: {
                /** @description An ETag. The server answers 304 if nothing has changed since. */
                "If-None-Match"?: string;
            };
            path: {
                /** @description The `id` of a webhook delivery. */
                deliveryId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The delivery. */
            200: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de005",
                     *       "version": 2,
                     *       "endpointId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004",
                     *       "webhookId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de006",
                     *       "type": "axle.due",
                     *       "status": "pending",
                     *       "attempts": [
                     *         {
                     *           "at": "2026-03-02T09:15:00.412Z",
                     *           "status": 503,
                     *           "detail": "try later"
                     *         }
                     *       ],
                     *       "nextAttemptAt": "2026-03-02T09:15:05.602Z",
                     *       "deliveredAt": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "event": {
                     *         "type": "axle.due",
                     *         "timestamp": "2026-03-02T09:15:00.000Z",
                     *         "data": {
                     *           "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *           "externalId": "FD-1007",
                     *           "fleet": "north-depot",
                     *           "model": "parcel-van-3t5",
                     *           "axle": "front",
                     *           "overdue": false,
                     *           "chance": 0.31,
                     *           "horizon": "2026-05-01",
                     *           "earlyDate": "2026-04-11",
                     *           "medianDate": "2026-05-23",
                     *           "lateDate": "2026-07-19",
                     *           "governingPad": {
                     *             "side": "left",
                     *             "pad": "inner"
                     *           },
                     *           "linings": "pads",
                     *           "limitMm": 3,
                     *           "limitSource": "wear-indicator",
                     *           "lastReadingDate": "2026-03-02",
                     *           "part": "pads",
                     *           "message": "Fit front pads before 11 April 2026. The chance that one of the pads reaches 3 mm (wear indicator) by 1 May 2026 is 31 %. Early date 11 April 2026, median 23 May 2026, late 19 July 2026.",
                     *           "caution": "This is a forecast from few and coarse readings and can change within days. It supports a decision and does not make it. Look at the brakes; the maker’s instructions, local law and licensed practice come first."
                     *         }
                     *       }
                     *     }
                     */
                    "application/json": components["schemas"]["WebhookDelivery"];
                };
            };
            /** @description The caller already has this version. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    replayWebhookDelivery: {
        parameters: {
            query?: never;
            header?: {
                /** @description If the same key and body are sent again, the server repeats its first answer. It keeps keys for at least 24 hours. */
                "Idempotency-Key"?: string;
            };
            path: {
                /** @description The `id` of a webhook delivery. */
                deliveryId: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The delivery, pending. */
            202: {
                headers: {
                    /** @description The version, to be sent in If-Match or If-None-Match. */
                    ETag?: string;
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "id": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de005",
                     *       "version": 2,
                     *       "endpointId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de004",
                     *       "webhookId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de006",
                     *       "type": "axle.due",
                     *       "status": "pending",
                     *       "attempts": [
                     *         {
                     *           "at": "2026-03-02T09:15:00.412Z",
                     *           "status": 503,
                     *           "detail": "try later"
                     *         }
                     *       ],
                     *       "nextAttemptAt": "2026-03-02T09:15:05.602Z",
                     *       "deliveredAt": null,
                     *       "createdAt": "2026-03-02T09:15:00.000Z",
                     *       "event": {
                     *         "type": "axle.due",
                     *         "timestamp": "2026-03-02T09:15:00.000Z",
                     *         "data": {
                     *           "vehicleId": "0197a2f0-6c1e-7d7a-9a55-2f6f1c0de001",
                     *           "externalId": "FD-1007",
                     *           "fleet": "north-depot",
                     *           "model": "parcel-van-3t5",
                     *           "axle": "front",
                     *           "overdue": false,
                     *           "chance": 0.31,
                     *           "horizon": "2026-05-01",
                     *           "earlyDate": "2026-04-11",
                     *           "medianDate": "2026-05-23",
                     *           "lateDate": "2026-07-19",
                     *           "governingPad": {
                     *             "side": "left",
                     *             "pad": "inner"
                     *           },
                     *           "linings": "pads",
                     *           "limitMm": 3,
                     *           "limitSource": "wear-indicator",
                     *           "lastReadingDate": "2026-03-02",
                     *           "part": "pads",
                     *           "message": "Fit front pads before 11 April 2026. The chance that one of the pads reaches 3 mm (wear indicator) by 1 May 2026 is 31 %. Early date 11 April 2026, median 23 May 2026, late 19 July 2026.",
                     *           "caution": "This is a forecast from few and coarse readings and can change within days. It supports a decision and does not make it. Look at the brakes; the maker’s instructions, local law and licensed practice come first."
                     *         }
                     *       }
                     *     }
                     */
                    "application/json": components["schemas"]["WebhookDelivery"];
                };
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The webhook endpoint is disabled (`webhook-endpoint-disabled`); A request with this Idempotency-Key is still in progress (`request-under-way`) */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The Idempotency-Key was already used with a different body (`idempotency-key-reused`) */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
    revokeSessions: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                /** @description The name of a key. */
                keyName: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description All sessions of this key have ended. */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request cannot be read (`malformed-request`); A parameter or header is not valid (`bad-parameter`) */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description A valid API key is needed (`key-needed`) */
            401: {
                headers: {
                    /** @description The authentication scheme to use. */
                    "WWW-Authenticate"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The key’s role does not allow this (`role-not-allowed`) */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description There is no such resource (`not-found`) */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body is too large (`body-too-large`) */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The body’s media type is not supported (`media-type-not-supported`) */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description Too many requests (`too-many-requests`) */
            429: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The service is temporarily unavailable (`unavailable`) */
            503: {
                headers: {
                    /** @description Seconds to wait before asking again. */
                    "Retry-After"?: string;
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
            /** @description The server has no disk space left (`storage-full`) */
            507: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem"];
                };
            };
        };
    };
}
