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
         * Read whether the process is up
         * @description Answers as long as the process does. Needs no key.
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
         * Read whether it can answer from its database
         * @description Answers 503 while the database cannot be read or the service is closing. Needs no key.
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
         * Read the due-soon report as a calendar program does
         * @description Needs no key: the token in the address, made by POST /v1/calendar-subscriptions, opens this calendar and nothing else.
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
         * @description In the order in which they were recorded; vehicles out of service only on request.
         */
        get: operations["listVehicles"];
        put?: never;
        /**
         * Record a vehicle
         * @description At least one axle, and one of externalId, registration and vin, are needed; the rest may be missing.
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
         * @description With its ETag, which a change needs.
         */
        get: operations["getVehicle"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        /**
         * Change a vehicle
         * @description RFC 7396 merge patch: what is missing stays, what is null goes, arrays are replaced whole. Needs If-Match. Answers as of a date before the change use what was known then; give `effectiveFrom` where the change held earlier, as the right figure for a mistyped one did.
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
         * @description Latest first; voided ones only on request.
         */
        get: operations["listVisits"];
        put?: never;
        /**
         * Record a visit
         * @description Readings, conditions, work, torques and road test in one transaction with the outlooks that follow. A work order known already answers 200 with the stored visit when the content is the same, 409 when it is not.
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
         * @description As it was sent, with conversions, and an id for every reading, work item and torque. A voided visit reads with `voided`.
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
         * @description Readings in the morning, work in the afternoon: adds to what the visit has.
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
         * Read what a visit still lacks
         * @description What stands between the visit and a job that can be called complete: findings not answered by work, by a part’s recorded condition or by a repeated reading; a decision to replace, machine or measure that nobody acted on; linings not measured on an axle that was worked on; hydraulics opened without bleeding or new fluid; torques not recorded or outside their specification; work on one side only; no road test. What another visit within a week puts right is not open. It blocks nothing, and an empty list does not call the vehicle safe.
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
         * @description `changes` is an RFC 7396 merge patch of the standing visit as it would be sent, later entries included; arrays are replaced whole. The patched whole is checked as a new visit is, and every answer is worked out anew. A reading, work item or torque that is left alone keeps its id; one that is changed gets another. `void` (owner) takes the visit out of all that is worked out and frees its work order; `void: false` brings it back. What stood before stays in the history. Needs If-Match.
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
         * @description The other record’s visits move here and its externalId, registration and vin fill those missing here, in one transaction with the outlook. What stands in the way (a work order on both, an odometer that would run backwards, an axle missing here) is listed in `errors` and nothing moves. The other record stays readable with `mergedInto`, leaves lists and reports, and everything else about it is 404 naming `vehicleId`. Needs If-Match.
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
         * @description Earliest first: the visit as it stood, with who made it so, when and why. Nothing is ever taken away from it.
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
         * @description Earliest first: the vehicle as it stood, with who made it so and when. Also of a record that was merged into another.
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
         * List who wrote what, and when
         * @description Earliest first: one line a write, by the name of the key. Nothing is ever taken away from it.
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
         * Read wear, dates and rotor margins
         * @description For every pad its wear per 1000 km and what remains above the governing limit; for every axle when the first pad will reach it; for every rotor its margin over discard. `low` and `early` are 10 % points, `high` and `late` 90 % points.
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
         * @description Charts of the linings and of what they run on: readings with the 95 % interval of their gauges, replacements, limits, and the forecast with its 50 and 80 % intervals, as the wear answer has them. The title and description say the same in words.
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
         * Read at which visit to fit new linings
         * @description For each coming visit and axle the chance that the limit is reached before it, and how much lining is thrown away if the job is done then. With `costTooLate` and `costPerMmWasted` the visit with the least expected cost is recommended; only the ratio of the two decides, so any unit will do. Without them it is the last visit at which the chance of coming too late is at most `chance`. It takes for granted that the job is done at one of these visits, costs the same at each, and that coming too late costs the same however late. Of an axle that is overdue no coming visit is recommended: the job is due now. Worked out anew at each call, like a wear answer with `asOf`.
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
         * @description Axles of which a part, the linings or the rotors or drums, reaches its limit by the horizon with a chance of at least `chance`; soonest early date first, overdue ones included. As iCalendar, an all-day event for each; POST /v1/calendar-subscriptions makes an address of it for calendar programs.
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
         * List the axles with no projection, and why
         * @description What nobody can tell the date of: never measured, no limit known, no odometer reading.
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
         * List the axles that are better measured than planned for, and why
         * @description Axles with a projection that are not due by the same parameters of the due-soon report, and either were not measured for longer than the policy’s `longestDaysWithoutReading`, or have early and late dates farther apart than the vehicle’s visits, and come to a chance of 5 % by the horizon and before the vehicle is next here by its visits, or when it has missed one. Soonest early date first. Axles without a projection are in the unassessed report.
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
         * @description Axles with a finding of severity `stop` that the due-soon report with the same parameters leaves out, because no date makes them due: a cracked rotor with thick pads, a leaking caliper, an axle without a forecast. Both lists together hold every axle that needs work now. Soonest early date first.
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
         * List the addresses made for calendar programs
         * @description Those that the key made, or all where it is an owner’s, without their addresses. Those of revoked keys are gone.
         */
        get: operations["listCalendarSubscriptions"];
        put?: never;
        /**
         * Make an address for a calendar program
         * @description Calendar programs send no key: the address made here holds a random token of 256 bits instead, which reads the due-soon report with these parameters as iCalendar and nothing else. It sees what the key that makes it sees, and is refused once that key is revoked. The address is shown this once and stored only hashed: who loses it makes another.
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
         * Revoke an address made for a calendar program
         * @description At once and for good. One that the key made, or any where it is an owner’s.
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
         * Read how many parts will be needed by month
         * @description By calendar month from the current one, fleet, model and axle: how many sets of linings and pairs of rotors or drums. A set of linings counts in the month in which the first of the axle reaches its governing limit, with the chance of that; what may have been reached already, and all of it where a reading fails, in the first month. Rotors and drums count with the set of linings that they would not outlast, in the month in which they reach their own limit where that comes first, and in the first month where they are to go now. A month’s figures do not depend on how many months are asked for. `expected` is the sum of the chances, `low` and `high` are 10 % and 90 % points of the number, as if the axles wore out independently of one another; where many share a season or a change of work, the truth spreads wider. An axle counts for one set at most: that the set which follows wears out within these months too is left out. Vehicles out of service count for nothing. Never paged.
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
         * Read how past forecasts did against what followed
         * @description What was forecast at each past visit, from what was known then, against when the first pad of the axle reached its governing limit, and every reading against what was foretold of it at the visit before. Nothing later than a visit is looked at for its forecast: each draws on the newest experience learned only from visits before it. JSON has the figures and, as items, the forecasts themselves, latest first; CSV has the forecasts.
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
         * List the gauges known
         * @description The standard ones and the shop’s own. A reading names one of these; where it names none, a coarse one is assumed.
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
         * Add a gauge or change one
         * @description Adds a gauge of the shop’s own, or replaces what is said of a known one, which needs If-Match. Every outlook that rests on its readings is worked out anew.
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
         * @description Which rule sets apply, the shop’s own least thickness, what the reports ask by default, and how long between visits and readings.
         */
        get: operations["getPolicy"];
        /**
         * Set the shop’s policy
         * @description Replaces the whole policy. Every outlook is worked out anew under it: a vehicle asked for answers by it at once, reports as soon as their outlooks have had their turn.
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
         * List the rule sets known, and which rows fit a vehicle
         * @description Each figure with its source. A set counts in wear answers once the policy names it; none does by default. With `vehicleId`, the rows that fit each axle of that vehicle by actuation, lining, steering and gross mass, and what of these is not known. Local law and licensed practice decide.
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
         * List what was learned from the shop’s own vehicles
         * @description Each fit with its groups, their parameters, and the numbers of vehicles and readings behind them.
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
         * @description A heading row, then one row for each reading, work item, torque, condition or place not measured. The vehicle, date and work order of a row say which visit it belongs to. The text may be UTF-8, UTF-16 or Windows-1252, with commas, semicolons or tabs between the cells and decimal points or commas. Headings and terms may be in any case. Rows that are recorded already are skipped. A file with any error is refused whole; otherwise all of it is recorded.
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
         * @description JSON Lines: one vehicle a line, as POST /v1/vehicles takes it. Vehicles that are known are skipped; one known with other content is an error. A file with any error is refused whole, else it is taken whole.
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
         * @description Latest first, those under way among them.
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
         * Read how far an import is
         * @description To be asked again until `state` is done, refused or failed.
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
         * @description The spreadsheet that POST /v1/imports/visits takes. Imported into an empty database that has the exported vehicles, it is exported again byte for byte.
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
         * @description JSON Lines, one vehicle a line, as POST /v1/imports/vehicles takes it.
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
         * @description All there are, earliest first, without their secrets.
         */
        get: operations["listWebhookEndpoints"];
        put?: never;
        /**
         * Have events posted to an address
         * @description Events are raised from now on: what is due already is no news, and stands in the due-soon report. The answer holds the secret that signs them, which no other answer does.
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
         * @description Without its secret; with its ETag, which a change needs.
         */
        get: operations["getWebhookEndpoint"];
        put?: never;
        post?: never;
        /**
         * Remove a webhook endpoint
         * @description With its secret and its deliveries, for good.
         */
        delete: operations["removeWebhookEndpoint"];
        options?: never;
        head?: never;
        /**
         * Change a webhook endpoint
         * @description RFC 7396 merge patch of the address, the filters or `enabled`. While it is disabled nothing is raised for it; what was pending goes on when it is enabled. Needs If-Match.
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
         * Make a new secret
         * @description The secret until now signs beside the new one for `overlapHours`, so that the receiver can be changed over meanwhile: the signature header then holds two.
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
         * Post a test to an endpoint
         * @description Puts a `webhook.test` into its queue, whatever its filters; the delivery tells what became of it.
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
         * List what became of events
         * @description One line an event and endpoint, latest first; kept for 90 days.
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
         * @description The event as it is sent, and every attempt at it.
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
         * @description Puts it into the queue anew, at the head of the schedule, under the same webhook-id and with the same body.
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
         * Sign everybody out who signed in with a key
         * @description Ends every session that a browser began with this key, at once. The key itself stays in use; revoke it on the command line.
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
        /** @description RFC 9457 problem details. */
        Problem: {
            /** @description Identifies the kind of problem. */
            type: string;
            title: string;
            status: number;
            detail: string;
            /**
             * @description Stable, kebab-case; further ones may come.
             * @enum {string}
             */
            code: "malformed-request" | "bad-parameter" | "key-needed" | "role-not-allowed" | "form-from-elsewhere" | "not-found" | "method-not-allowed" | "request-too-slow" | "duplicate-vehicle" | "work-order-known" | "vehicle-erased" | "road-test-recorded" | "visit-voided" | "visit-not-voided" | "work-orders-collide" | "too-many-webhook-endpoints" | "webhook-endpoint-disabled" | "request-under-way" | "stale-version" | "body-too-large" | "media-type-not-supported" | "expectation-failed" | "invalid" | "import-refused" | "idempotency-key-reused" | "precondition-needed" | "headers-too-large" | "too-many-requests" | "internal-error" | "unavailable" | "storage-full";
            /** @description The request, as the log names it. */
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
            /** @description The vehicle in the way, or the one that a record was merged into. */
            vehicleId?: string;
            /** @description The visit in the way. */
            visitId?: string;
            importId?: string;
            rows?: number;
            /** @description All errors of a file; the first 1,000 are shown. */
            errorsTotal?: number;
        };
        /** @description A length as it was read. */
        EnteredLength: {
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
        };
        /** @description A distance as the odometer showed it. */
        EnteredDistance: {
            value: number;
            /** @enum {string} */
            unit: "km" | "mi";
        };
        /** @description A torque as it was set or read. */
        EnteredTorque: {
            value: number;
            /** @enum {string} */
            unit: "Nm" | "ft-lbf";
        };
        /** @description A mass as it was given. */
        EnteredMass: {
            value: number;
            /** @enum {string} */
            unit: "kg" | "lb";
        };
        /** @description A length as it was sent, and in millimetres. */
        Length: {
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            mm: number;
        };
        /** @description A distance as it was sent, and in kilometres. */
        Distance: {
            value: number;
            /** @enum {string} */
            unit: "km" | "mi";
            km: number;
        };
        /** @description A torque as it was sent, and in newton metres. */
        Torque: {
            value: number;
            /** @enum {string} */
            unit: "Nm" | "ft-lbf";
            Nm: number;
        };
        /** @description A mass as it was sent, and in kilograms. */
        Mass: {
            value: number;
            /** @enum {string} */
            unit: "kg" | "lb";
            kg: number;
        };
        Reason: {
            /** @description The field that is null, as a path from the object that holds `reasons`. */
            field: string;
            /** @description Stable, kebab-case. */
            code: string;
            /** @description For people. */
            detail: string;
        };
        /** @description 10 %, 50 % and 90 % points. */
        Range: {
            low: number;
            median: number;
            high: number;
        };
        /**
         * @example {
         *       "name": "calendar of the north depot",
         *       "withinDays": 90,
         *       "fleet": "north-depot"
         *     }
         */
        CalendarSubscriptionBody: {
            /** @description What it is for, to tell it from others in the list. */
            name?: string | null;
            /** @description Days from today to the horizon; the policy’s, whatever it is then, where it is missing. */
            withinDays?: number | null;
            /** @description The policy’s, whatever it is then, where it is missing. */
            chance?: number | null;
            /** @description All that its key may see where it is missing. */
            fleet?: string | null;
            axle?: ("front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9") | null;
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
            /** @description The name of the key that made it; once that is revoked, it reads no more. */
            createdBy: string;
            /** Format: date-time */
            createdAt: string;
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
            /** @description The name of the key that made it; once that is revoked, it reads no more. */
            createdBy: string;
            /** Format: date-time */
            createdAt: string;
            /** @description The address on this service, secret: whoever has it reads the calendar. Shown this once. */
            path: string;
            /** @description The same with the public address; null where PUBLIC_URL is not set. */
            url: string | null;
        };
        /** @description The pad thickness at which the wear indicator speaks. */
        EnteredWearIndicator: {
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            type?: ("mechanical" | "electric" | "mark") | null;
        };
        /** @description The pad thickness at which the wear indicator speaks. */
        WearIndicator: {
            value: number;
            /** @enum {string} */
            unit: "mm" | "in" | "in/32";
            mm: number;
            type?: ("mechanical" | "electric" | "mark") | null;
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
        /** @description Inner diameters; a drum grows towards its maximum. */
        EnteredDrumSpec: {
            new?: components["schemas"]["EnteredLength"] | null;
            maximum?: components["schemas"]["EnteredLength"] | null;
            machineTo?: components["schemas"]["EnteredLength"] | null;
        };
        PadSpec: {
            new?: components["schemas"]["Length"] | null;
            limit?: components["schemas"]["Length"] | null;
            wearIndicator?: components["schemas"]["WearIndicator"] | null;
        };
        RotorSpec: {
            new?: components["schemas"]["Length"] | null;
            discard?: components["schemas"]["Length"] | null;
            machineTo?: components["schemas"]["Length"] | null;
            runoutLimit?: components["schemas"]["Length"] | null;
            variationLimit?: components["schemas"]["Length"] | null;
        };
        DrumSpec: {
            new?: components["schemas"]["Length"] | null;
            maximum?: components["schemas"]["Length"] | null;
            machineTo?: components["schemas"]["Length"] | null;
        };
        EnteredTorqueSpec: {
            value: number;
            /** @enum {string} */
            unit: "Nm" | "ft-lbf";
            tolerance?: components["schemas"]["EnteredTorque"] | null;
        };
        TorqueSpec: {
            value: number;
            /** @enum {string} */
            unit: "Nm" | "ft-lbf";
            Nm: number;
            tolerance?: components["schemas"]["Torque"] | null;
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
            /** @description The number the caller knows the vehicle by; unique. */
            externalId?: string | null;
            registration?: string | null;
            vin?: string | null;
            description?: string | null;
            /** @description Vehicles of one model share what is learned. */
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
            /** @description When the vehicle first went on the road, with its first parts. */
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
        /** @description Something accepted that deserves a second look. */
        Warning: {
            code: string;
            detail: string;
            pointer: string;
        };
        Vehicle: {
            id: string;
            version: number;
            /** @description The number the caller knows the vehicle by; unique. */
            externalId?: string | null;
            registration?: string | null;
            vin?: string | null;
            description?: string | null;
            /** @description Vehicles of one model share what is learned. */
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
            /** @description The vehicle that this record was merged into; its visits stand there. */
            mergedInto?: string | null;
            /** @description When its personal data was erased; nothing more can be recorded of it. */
            erasedAt?: string | null;
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            updatedAt: string;
            warnings: components["schemas"]["Warning"][];
        };
        /** @description Friction material only, at its thinnest, without backing plate, shim and bevel; riveted linings above the rivet head. */
        PadThicknessBody: {
            /** @constant */
            kind: "pad-thickness";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @enum {string} */
            side: "left" | "right";
            /** @enum {string} */
            pad: "inner" | "outer";
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
            /** @description A name in GET /v1/gauges; missing means an assumed coarse one. */
            gauge?: string | null;
            /** @default 1 */
            repeat?: number;
        };
        /** @description Inside the worn band, away from the rust lip, at several points on one radius. */
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
            /** @description A name in GET /v1/gauges; missing means an assumed coarse one. */
            gauge?: string | null;
            /** @default 1 */
            repeat?: number;
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
            /** @description A name in GET /v1/gauges; missing means an assumed coarse one. */
            gauge?: string | null;
            /** @default 1 */
            repeat?: number;
        };
        /** @description Lining of a drum brake without its shoe; riveted linings above the rivet head. Where nobody says which shoe it was it is the thinnest of that wheel. */
        ShoeThicknessBody: {
            /** @constant */
            kind: "shoe-thickness";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @enum {string} */
            side: "left" | "right";
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
            /** @description A name in GET /v1/gauges; missing means an assumed coarse one. */
            gauge?: string | null;
            /** @default 1 */
            repeat?: number;
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
            /** @description A name in GET /v1/gauges; missing means an assumed coarse one. */
            gauge?: string | null;
            /** @default 1 */
            repeat?: number;
        };
        ReadingBody: components["schemas"]["PadThicknessBody"] | components["schemas"]["RotorThicknessBody"] | components["schemas"]["RotorRunoutBody"] | components["schemas"]["ShoeThicknessBody"] | components["schemas"]["DrumDiameterBody"];
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
        NotMeasuredBody: {
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            part?: ("rotor" | "pad" | "caliper" | "hose" | "slide" | "drum" | "shoe") | null;
            pad?: ("inner" | "outer" | "leading" | "trailing" | "thinnest") | null;
            why: string;
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
        RotorMachinedBody: {
            /** @constant */
            kind: "rotor-machined";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
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
        DrumMachinedBody: {
            /** @constant */
            kind: "drum-machined";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
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
        FluidChangedBody: {
            /** @constant */
            kind: "fluid-changed";
            axle?: ("front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9") | null;
            side?: ("left" | "right") | null;
            part?: string | null;
            notes?: string | null;
        };
        /** @description What was done: pads-replaced, rotor-replaced, rotor-machined, shoes-replaced, drum-replaced, drum-machined, slides-serviced, caliper-replaced, fluid-changed, hose-replaced. A missing side means both. */
        WorkBody: components["schemas"]["PadsReplacedBody"] | components["schemas"]["RotorReplacedBody"] | components["schemas"]["RotorMachinedBody"] | components["schemas"]["ShoesReplacedBody"] | components["schemas"]["DrumReplacedBody"] | components["schemas"]["DrumMachinedBody"] | components["schemas"]["ServiceBody"] | components["schemas"]["FluidChangedBody"];
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
        RoadTest: {
            pulls?: ("none" | "left" | "right") | null;
            pulsation?: boolean | null;
            noise?: boolean | null;
            notes?: string | null;
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
            /** @description Missing or null means no distance and no rate from this visit. */
            odometer?: components["schemas"]["EnteredDistance"] | null;
            /** @description The odometer was replaced: `odometer` is the new one’s and order is checked from here anew. */
            odometerReplaced?: {
                oldFinal?: components["schemas"]["EnteredDistance"] | null;
                newStart?: components["schemas"]["EnteredDistance"] | null;
            } | null;
            /** @description Unique per vehicle and shop. */
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
        PadThickness: {
            /** @constant */
            kind: "pad-thickness";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @enum {string} */
            side: "left" | "right";
            /** @enum {string} */
            pad: "inner" | "outer";
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
            /** @description A name in GET /v1/gauges; missing means an assumed coarse one. */
            gauge?: string | null;
            /** @default 1 */
            repeat: number;
            id: string;
            mm: number;
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
            /** @description A name in GET /v1/gauges; missing means an assumed coarse one. */
            gauge?: string | null;
            /** @default 1 */
            repeat: number;
            id: string;
            mm: number;
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
            /** @description A name in GET /v1/gauges; missing means an assumed coarse one. */
            gauge?: string | null;
            /** @default 1 */
            repeat: number;
            id: string;
            mm: number;
        };
        ShoeThickness: {
            /** @constant */
            kind: "shoe-thickness";
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @enum {string} */
            side: "left" | "right";
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
            /** @description A name in GET /v1/gauges; missing means an assumed coarse one. */
            gauge?: string | null;
            /** @default 1 */
            repeat: number;
            id: string;
            mm: number;
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
            /** @description A name in GET /v1/gauges; missing means an assumed coarse one. */
            gauge?: string | null;
            /** @default 1 */
            repeat: number;
            id: string;
            mm: number;
        };
        Reading: components["schemas"]["PadThickness"] | components["schemas"]["RotorThickness"] | components["schemas"]["RotorRunout"] | components["schemas"]["ShoeThickness"] | components["schemas"]["DrumDiameter"];
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
            wearIndicator?: {
                value: number;
                /** @enum {string} */
                unit: "mm" | "in" | "in/32";
                mm: number;
                type?: string | null;
            } | null;
            discard?: components["schemas"]["Length"] | null;
            maximum?: components["schemas"]["Length"] | null;
            machineTo?: components["schemas"]["Length"] | null;
            runoutLimit?: components["schemas"]["Length"] | null;
            variationLimit?: components["schemas"]["Length"] | null;
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
        /** @description A voided visit counts for nothing and stays readable. */
        Voided: {
            /** Format: date-time */
            at: string;
            /** @description The name of the API key. */
            by: string | null;
            reason: string;
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
             * @description Rule sets of GET /v1/limits that apply, by id; none by default.
             * @default []
             */
            ruleSets?: string[];
            /**
             * @description The shop’s own least thickness of friction material; a reading below it fails.
             * @default null
             */
            padMinimum?: components["schemas"]["EnteredLength"] | null;
            /**
             * @description What GET /v1/reports/due-soon asks where its caller does not say.
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
             * @description Days between visits assumed of a vehicle that has no rhythm.
             * @default 182
             */
            visitIntervalDays?: number;
            /**
             * @description An axle unmeasured for longer is named in a finding.
             * @default 365
             */
            longestDaysWithoutReading?: number;
            /**
             * @description How many years `npm run prune` keeps audit entries and superseded versions; null is for good.
             * @default null
             */
            retentionYears?: number | null;
            /**
             * @description What a fleet manager sees of the time before a vehicle came to their fleet from another one. The forecasts rest on all readings whatever is shown.
             * @default {
             *       "readings": true,
             *       "notes": false,
             *       "names": false,
             *       "fleets": false
             *     }
             */
            beforeTransfer?: {
                /**
                 * @description Visits and what was measured at them.
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
                 * @description The names of the fleets it was in.
                 * @default false
                 */
                fleets?: boolean;
            };
        };
        Policy: {
            /** @constant */
            id: "policy";
            /** @description 0 where the defaults stand. */
            version: number;
            ruleSets: string[];
            padMinimum: components["schemas"]["Length"] | null;
            /**
             * @description What GET /v1/reports/due-soon asks where its caller does not say.
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
             * @description Days between visits assumed of a vehicle that has no rhythm.
             * @default 182
             */
            visitIntervalDays: number;
            /**
             * @description An axle unmeasured for longer is named in a finding.
             * @default 365
             */
            longestDaysWithoutReading: number;
            /**
             * @description How many years `npm run prune` keeps audit entries and superseded versions; null is for good.
             * @default null
             */
            retentionYears: number | null;
            /**
             * @description What a fleet manager sees of the time before a vehicle came to their fleet from another one. The forecasts rest on all readings whatever is shown.
             * @default {
             *       "readings": true,
             *       "notes": false,
             *       "names": false,
             *       "fleets": false
             *     }
             */
            beforeTransfer: {
                /**
                 * @description Visits and what was measured at them.
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
                 * @description The names of the fleets it was in.
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
            /** @description Of one reading; where it is missing, that of rounding to the resolution, resolution / √12. */
            standardUncertainty?: components["schemas"]["EnteredLength"] | null;
            calibrationDate?: string | null;
            /** @description A year after calibrationDate where it is missing (common practice, no source). */
            calibrationDueDate?: string | null;
        };
        Gauge: {
            id: string;
            /** @description 0 for a standard gauge as it comes. */
            version: number;
            name: string;
            /** @enum {string} */
            kind: "pad-gauge" | "depth-gauge" | "caliper" | "micrometer" | "dial-indicator" | "drum-gauge" | "visual" | "assumed";
            resolutionMm: number;
            /** @description Of one reading, rounding to the resolution included. */
            standardUncertaintyMm: number;
            calibrationDate: string | null;
            calibrationDueDate: string | null;
            /** @description Whether its calibration was due before today. */
            outOfDate: boolean;
        };
        CalendarSubscriptionList: {
            items: components["schemas"]["CalendarSubscription"][];
            /** @description null at the end. */
            nextCursor: string | null;
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
            /** @description Why, for whoever reads the history. */
            reason: string;
            /** @description RFC 7396 merge patch of the standing visit as it would be sent, later entries included; arrays are replaced whole. */
            changes?: {
                [key: string]: unknown;
            };
            /** @description true: the visit counts for nothing any more; false: it counts again. Owner only. */
            void?: boolean;
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
            /** @description Why, for whoever reads the history. */
            reason: string;
        };
        VisitVersion: {
            version: number;
            /** @enum {string} */
            kind: "recorded" | "entries-added" | "corrected" | "voided" | "restored" | "moved";
            /** Format: date-time */
            at: string;
            /** @description The name of the API key; null on the command line, or for what was recorded before histories were kept. */
            by: string | null;
            reason: string | null;
            vehicleId: string;
            /** @description The visit as it stood, as it would be sent. */
            body: components["schemas"]["VisitBody"];
        };
        VehicleVersion: {
            version: number;
            /** @enum {string} */
            kind: "recorded" | "changed" | "merged" | "merged-into";
            /** Format: date-time */
            at: string;
            /** @description The name of the API key; null on the command line, or for what was recorded before histories were kept. */
            by: string | null;
            reason: string | null;
            /**
             * Format: date
             * @description What it changed holds from this date, for `asOf`; null: it always did.
             */
            effectiveFrom: string | null;
            /** @description The other record of a merge. */
            mergedWith: string | null;
            /** @description The vehicle as it stood, as it would be sent. */
            body: components["schemas"]["VehicleBody"];
        };
        AuditEntry: {
            id: string;
            /** Format: date-time */
            at: string;
            /** @description The name of the API key; null on the command line, or for what was recorded before histories were kept. */
            key: string | null;
            /** @description null on the command line. */
            method: string | null;
            /** @description What was done: kebab-case. */
            action: string;
            /** @description The kind of resource. */
            resource: string;
            resourceId: string;
            /** @description Of an import: what it brought. */
            detail: string | null;
        };
        Limit: {
            /** @enum {string} */
            source: "maker" | "law" | "shop" | "wear-indicator";
            /** @description What the limit is and where it stands. */
            rule: string;
            /** @description Of a limit by law: its set in GET /v1/limits. */
            ruleSet?: string;
            /** @description Of a limit by law: its rule in that set. */
            ruleId?: string;
            /** @description Of a limit by law: the set and the item or section, as they are cited. */
            citation?: string;
            /** @description Of a limit by law: the class of the defect, where the source has classes. */
            defectClass?: string;
            /** @description Of a limit by law: where the rule is published. */
            link?: string;
            limitMm: number;
            /** @enum {string} */
            failsAt: "at-or-below" | "below";
            /** @description The plain latest reading against the rule. */
            fails: boolean | null;
            /** @description Whether the limit lies below, inside or above the reading’s 95 % interval. Counts the gauge’s error and the scatter of repeats, not where on the lining the gauge was put; `chanceWithPlacement` counts that too. */
            conformity: ("conforms" | "inconclusive" | "does-not-conform") | null;
            /** @description Chance that the true thickness is above the limit, by the error that `conformity` counts. */
            chanceOfConformity: number | null;
            /** @description The same with where the gauge was put on the lining (about 0.2 mm, learned), as the forecast counts it. */
            chanceWithPlacement: number | null;
            governs: boolean;
        };
        PadWear: {
            /** @enum {string} */
            side: "left" | "right";
            /**
             * @description Inner or outer pad; on a drum brake the leading, trailing or thinnest shoe.
             * @enum {string}
             */
            pad: "inner" | "outer" | "leading" | "trailing" | "thinnest";
            /** @description Readings in this life of the pad. */
            readings: number;
            /** @description Where this life began; null where it is not known. */
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
            /** @description Above the governing limit, at `asAt`. */
            remainingMm: components["schemas"]["Range"] | null;
            limits: components["schemas"]["Limit"][];
            reasons: components["schemas"]["Reason"][];
        };
        /** @description 10 %, 25 %, 50 %, 75 % and 90 % points, from `asAt`. */
        DistanceInterval: {
            early: number | null;
            lowerQuartile: number | null;
            median: number | null;
            upperQuartile: number | null;
            late: number | null;
        };
        /** @description 10 %, 25 %, 50 %, 75 % and 90 % points; null beyond 30 years. */
        DateInterval: {
            early: string | null;
            lowerQuartile: string | null;
            median: string | null;
            upperQuartile: string | null;
            late: string | null;
        };
        Basis: {
            /** @description Readings of this axle’s pads in their present lives. */
            readings: number;
            /** @description The experience the forecast drew on, by name. */
            experience: string;
            /**
             * @description What is known of the set now fitted: its fitting is recorded, it is the one the vehicle came with, or neither is certain.
             * @enum {string}
             */
            set: "recorded" | "original" | "unknown" | "perhaps-replaced";
            words: string;
        };
        /** @description Whether the part lasts until the vehicle is next here. */
        UntilNextVisit: {
            /** Format: date */
            date: string;
            /** @enum {string} */
            dateSource: "until" | "rhythm" | "policy";
            chanceLimitReached: number | null;
        };
        Replacement: {
            governingPad: {
                /** @enum {string} */
                side: "left" | "right";
                /**
                 * @description Inner or outer pad; on a drum brake the leading, trailing or thinnest shoe.
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
        DecisionReason: {
            code: string;
            detail: string;
        };
        RotorWear: {
            /** @enum {string} */
            side: "left" | "right";
            /** @description Visits with a thickness in this life of the rotor. */
            readings: number;
            fitted: {
                date: string | null;
                odometerKm: number | null;
            } | null;
            latestDate: string | null;
            thinnestMm: number | null;
            discardMm: number | null;
            machineToMm: number | null;
            /** @description Thinnest point less discard thickness. */
            marginMm: number | null;
            marginStandardUncertaintyMm: number | null;
            /** @description Whether the plain reading is under discard. */
            fails: boolean | null;
            conformity: ("conforms" | "inconclusive" | "does-not-conform") | null;
            variationMm: number | null;
            variationConformity: ("conforms" | "inconclusive" | "does-not-conform") | null;
            runoutMm: number | null;
            runoutConformity: ("conforms" | "inconclusive" | "does-not-conform") | null;
            ratePer1000KmMm: components["schemas"]["Range"] | null;
            /** @description When it reaches discard. */
            date: components["schemas"]["DateInterval"] | null;
            untilNextVisit: components["schemas"]["UntilNextVisit"];
            marginAtPadReplacementMm: components["schemas"]["Range"] | null;
            marginAfterNextPadSetMm: components["schemas"]["Range"] | null;
            /** @enum {string} */
            decision: "keep" | "machine" | "replace" | "measure";
            decisionReasons: components["schemas"]["DecisionReason"][];
            reasons: components["schemas"]["Reason"][];
        };
        DrumWear: {
            /** @enum {string} */
            side: "left" | "right";
            /** @description Visits with a diameter in this life. */
            readings: number;
            fitted: {
                date: string | null;
                odometerKm: number | null;
            } | null;
            latestDate: string | null;
            largestMm: number | null;
            maximumMm: number | null;
            machineToMm: number | null;
            /** @description Maximum diameter less the largest measured. */
            marginMm: number | null;
            marginStandardUncertaintyMm: number | null;
            /** @description Whether the plain reading is over the maximum. */
            fails: boolean | null;
            conformity: ("conforms" | "inconclusive" | "does-not-conform") | null;
            /** @description Largest less smallest diameter measured. */
            outOfRoundMm: number | null;
            /** @description Growth of the diameter. */
            ratePer1000KmMm: components["schemas"]["Range"] | null;
            /** @description When it reaches its maximum diameter. */
            date: components["schemas"]["DateInterval"] | null;
            untilNextVisit: components["schemas"]["UntilNextVisit"];
            marginAtShoeReplacementMm: components["schemas"]["Range"] | null;
            marginAfterNextShoeSetMm: components["schemas"]["Range"] | null;
            /** @enum {string} */
            decision: "keep" | "machine" | "replace" | "measure";
            decisionReasons: components["schemas"]["DecisionReason"][];
            reasons: components["schemas"]["Reason"][];
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
            /** @description The figures behind it; each name carries its unit. */
            numbers: {
                [key: string]: number;
            };
        };
        StopFinding: {
            code: string;
            side: ("left" | "right") | null;
            pad: ("inner" | "outer" | "leading" | "trailing" | "thinnest") | null;
        };
        Caution: {
            code: string;
            message: string;
            source: string;
        };
        /** @description The next step on this axle, from its linings, its rotors or drums and its findings, whichever comes first. It supports a decision and never calls a vehicle fit to drive. */
        Advice: {
            /** @enum {string} */
            action: "stop" | "fit-now" | "first-chance" | "fit-before" | "machine" | "measure" | "nothing-yet";
            /** @description `pads` are the linings: pads or shoes. Null where no part is to be worked on. */
            part: ("pads" | "rotors" | "drums" | "calipers" | "slides" | "hoses") | null;
            /** @description The date to act by, today where the work is due now; null where there is none. */
            by: string | null;
            /** @description The next step, in one sentence. */
            words: string;
            /** @description What it rests on: the reading, the limit and the forecast. */
            why: string;
            /** @description What to do with the rotors or drums where `words` and `why` do not say it. */
            rotors: string | null;
            /** @description Open findings of this axle that `words` does not speak of. */
            checks: number;
            /** @description The open check in words, or how many there are; null where there is none. */
            check: string | null;
            /** @description The state of the axle in a few words. */
            status: string;
            /** @enum {string} */
            urgency: "now" | "soon" | "later" | "unknown";
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
        Usage: {
            kmPerDay: components["schemas"]["Range"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        /** @description The latest visit, which distances and remaining thickness count from. */
        AsAt: {
            /** Format: date */
            date: string;
            odometerKm: number | null;
        };
        Wear: {
            vehicleId: string;
            usage: components["schemas"]["Usage"];
            asAt: components["schemas"]["AsAt"] | null;
            axles: components["schemas"]["AxleWear"][];
            cautions: components["schemas"]["Caution"][];
            reasons: components["schemas"]["Reason"][];
        };
        VisitList: {
            items: components["schemas"]["Visit"][];
            /** @description null at the end. */
            nextCursor: string | null;
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
            /** @description By axle, as GET …/wear answers it. */
            outlook: {
                [key: string]: components["schemas"]["AxleWear"];
            };
        };
        RivalAccuracy: {
            forecasts: number;
            meanAbsoluteErrorDays: number;
            /** @description Mean absolute error of the service’s forecasts over the rule’s, on the same forecasts. */
            ratio: number | null;
        };
        DateFigures: {
            /** @description Of the sets: between a reading above the limit and the next at or below it. */
            interpolatedShare: number;
            /** @description Of the sets: changed early, and carried on along the straight line of their own wear. */
            extrapolatedShare: number;
            /** @description Of the median date. */
            meanAbsoluteErrorDays: number;
            medianAbsoluteErrorDays: number;
            /** @description Mean of forecast less actual: positive where the dates were too late. */
            biasDays: number;
            meanAbsoluteErrorKm: number | null;
            biasKm: number | null;
            /** @description Forecasts whose early-to-late interval held the day. */
            inside80: number;
            /** @description The limit was reached before the early date. */
            before80: number;
            /** @description The limit was reached after the late date. */
            after80: number;
            inside80Share: number;
            /** @description The forecasts of one vehicle taken together. */
            inside80StandardError: number | null;
            /** @description The same share with those under way counted as far as they can be judged: fast-wearing pads end first, so the ended sets alone are not a fair sample (Kaplan and Meier’s estimate over the chance that each forecast gave to the day). */
            inside80ShareWithUnderWay: number | null;
            /** @description Rate from new to latest reading, at the last two visits’ km a day. */
            againstTwoPoint: components["schemas"]["RivalAccuracy"] | null;
            /** @description Least squares of each pad through its fitted value, at the mean km a day since. */
            againstLine: components["schemas"]["RivalAccuracy"] | null;
        };
        /** @description Standard errors take the readings of one vehicle together. */
        ReadingFigures: {
            meanAbsoluteErrorMm: number;
            /** @description Mean of reading less foretold median: positive where pads wore less than foretold. */
            biasMm: number;
            /** @description Continuous ranked probability score; less is better. */
            meanCrpsMm: number;
            inside50Share: number;
            inside50StandardError: number;
            inside80Share: number;
            inside80StandardError: number;
            inside95Share: number;
            inside95StandardError: number;
            /** @description Shares of the readings by the chance that was given to a thinner one, in tenths from thinnest to thickest; all are 0.1 where the forecasts mean what they say. */
            tenthShares: number[];
        };
        DateAccuracy: {
            vehicles: number;
            /** @description Sets of pads whose first pad is known to have reached its limit. */
            padSets: number;
            /** @description Made at visits while they were on, before the limit was reached. */
            forecasts: number;
            /** @description Forecasts of pads not yet seen to reach their limit, or changed long before it. */
            underWay: number;
            figures: components["schemas"]["DateFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        ReadingAccuracy: {
            vehicles: number;
            readings: number;
            figures: components["schemas"]["ReadingFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        DateAccuracyByAxleAndModel: {
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @description Null for the vehicles of no model. */
            model: string | null;
            vehicles: number;
            /** @description Sets of pads whose first pad is known to have reached its limit. */
            padSets: number;
            /** @description Made at visits while they were on, before the limit was reached. */
            forecasts: number;
            /** @description Forecasts of pads not yet seen to reach their limit, or changed long before it. */
            underWay: number;
            figures: components["schemas"]["DateFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        DateAccuracyByReadings: {
            /**
             * @description Readings of the pads then on the axle when the forecast was made.
             * @enum {string}
             */
            stage: "0" | "1–4" | "5–8" | "9–16" | "17+";
            vehicles: number;
            /** @description Sets of pads whose first pad is known to have reached its limit. */
            padSets: number;
            /** @description Made at visits while they were on, before the limit was reached. */
            forecasts: number;
            /** @description Forecasts of pads not yet seen to reach their limit, or changed long before it. */
            underWay: number;
            figures: components["schemas"]["DateFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        DateAccuracyBySet: {
            /**
             * @description What was known of the set of pads when the forecast was made, as in its `basis.set`.
             * @enum {string}
             */
            set: "recorded" | "original" | "unknown" | "perhaps-replaced";
            vehicles: number;
            /** @description Sets of pads whose first pad is known to have reached its limit. */
            padSets: number;
            /** @description Made at visits while they were on, before the limit was reached. */
            forecasts: number;
            /** @description Forecasts of pads not yet seen to reach their limit, or changed long before it. */
            underWay: number;
            figures: components["schemas"]["DateFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        ReadingAccuracyByAxleAndModel: {
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /** @description Null for the vehicles of no model. */
            model: string | null;
            vehicles: number;
            readings: number;
            figures: components["schemas"]["ReadingFigures"] | null;
            reasons: components["schemas"]["Reason"][];
        };
        ReadingAccuracyByReadings: {
            /**
             * @description Readings of the pads then on the axle when the forecast was made.
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
             * @description What was known of the set of pads when the forecast was made, as in its `basis.set`.
             * @enum {string}
             */
            set: "recorded" | "original" | "unknown" | "perhaps-replaced";
            vehicles: number;
            readings: number;
            figures: components["schemas"]["ReadingFigures"] | null;
            reasons: components["schemas"]["Reason"][];
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
             * @description The visit at which it was made.
             */
            forecastDate: string;
            readings: number;
            /**
             * @description What was known of the set of pads when the forecast was made, as in its `basis.set`.
             * @enum {string}
             */
            set: "recorded" | "original" | "unknown" | "perhaps-replaced";
            /** @description The experience it drew on, by name. */
            experience: string;
            earlyDate: string | null;
            medianDate: string | null;
            lateDate: string | null;
            /**
             * Format: date
             * @description Where `howKnown` is extrapolated, when it would have been reached; that may lie ahead.
             */
            reachedDate: string;
            /** @enum {string} */
            howKnown: "interpolated" | "extrapolated";
            /** @description Median less actual: positive where it was too late. */
            errorDays: number | null;
            errorKm: number | null;
            inside80: boolean;
            twoPointErrorDays: number | null;
            lineErrorDays: number | null;
            reasons: components["schemas"]["Reason"][];
        };
        ForecastAccuracy: {
            /** @description The same for people, in plain words. */
            words: string;
            /** @description Dates and distances against when the first pad reached its governing limit. */
            dates: {
                total: components["schemas"]["DateAccuracy"];
                byAxleAndModel: components["schemas"]["DateAccuracyByAxleAndModel"][];
                byReadings: components["schemas"]["DateAccuracyByReadings"][];
                bySet: components["schemas"]["DateAccuracyBySet"][];
            };
            /** @description Every pad’s reading against what was foretold of it at the visit before. */
            nextReadings: {
                total: components["schemas"]["ReadingAccuracy"];
                byAxleAndModel: components["schemas"]["ReadingAccuracyByAxleAndModel"][];
                byReadings: components["schemas"]["ReadingAccuracyByReadings"][];
                bySet: components["schemas"]["ReadingAccuracyBySet"][];
            };
            /** @description Vehicles whose past forecasts have been scored. */
            vehicles: number;
            /** @description Vehicles still to be scored: ask again. */
            pendingVehicles: number;
            reasons: components["schemas"]["Reason"][];
            /** @description Past forecasts over all pages. */
            total: number;
            items: components["schemas"]["PastForecast"][];
            nextCursor: string | null;
        };
        ExperienceGroup: {
            /** @description Front or rear axles, friction or regenerative, discs or drums. */
            name: string;
            vehicles: number;
            readings: number;
            models: {
                model: string;
                vehicles: number;
            }[];
            /** @description Of the log wear rate with the log daily pace. */
            correlation: number;
            /** @description Means over the draws; rates in mm per 1000 km, lengths in mm, paces in km a day. */
            pads: {
                [key: string]: number;
            };
            /** @description Means over the draws; rates in mm per 1000 km, lengths in mm, paces in km a day. */
            usage: {
                [key: string]: number;
            };
        };
        Experience: {
            version: number;
            /** Format: date-time */
            createdAt: string;
            vehicles: number;
            groups: components["schemas"]["ExperienceGroup"][];
        };
        /** @description The latest fits, newest first; none where the starting values are in force. */
        ExperienceList: {
            items: components["schemas"]["Experience"][];
            nextCursor: null;
        };
        Health: {
            /** @constant */
            status: "ok";
        };
        OpenPoint: {
            /** @description Stable, kebab-case. */
            code: string;
            axle: ("front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9") | null;
            side: ("left" | "right") | null;
            pad: ("inner" | "outer" | "leading" | "trailing" | "thinnest") | null;
            fastener: string | null;
            /** @description The code of the finding that waits for an answer. */
            finding: string | null;
            message: string;
            numbers: {
                [key: string]: number;
            };
        };
        OpenPoints: {
            visitId: string;
            /** @description Whether nothing is left open in the records; not a statement about the vehicle. */
            complete: boolean;
            items: components["schemas"]["OpenPoint"][];
        };
        RuleSource: {
            title: string;
            section: string;
            /** @description Null where the text that was read names none. */
            edition: string | null;
            /** @description The month in which it was read. */
            read: string;
            link: string;
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
            /** @description What the rule says, in words of this service. */
            clause: string;
            decidedBy: ("figure" | "wear-indicator" | "marked-figure" | "judgement")[];
            /** @description The figure as it is printed. */
            printed: string | null;
            /** @description Null where the rule prints no figure. */
            limitMm: number | null;
            failsAt: ("at-or-below" | "below") | null;
            /** @description The class of the defect, where the source has classes. */
            result: string | null;
            source: components["schemas"]["RuleSource"];
        };
        InspectionRuleSet: {
            /** @description The policy names the set by it. */
            id: string;
            name: string;
            jurisdiction: string;
            appliesTo: string;
            /** @description The gross mass it counts for, as it is printed. */
            grossMass: string | null;
            /** @description Which printed unit the figures are taken from, where roundings differ. */
            figures: string;
            /** @description Whether the policy has it count here. */
            chosen: boolean;
            /** @description Parts of the source that could not be opened and compared; null where all of it was. */
            notOpened: string | null;
            rules: components["schemas"]["InspectionRule"][];
        };
        /** @description The rows that fit each axle, or could; of those that could, the strictest counts. */
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
                        /** @description What it turns on and is not known. */
                        unknown: ("brake" | "actuation" | "lining" | "steered" | "trailer" | "shoe-lining" | "wear-indicator-type")[];
                    }[];
                    reasons: components["schemas"]["Reason"][];
                }[];
            }[];
        };
        LimitNote: {
            code: string;
            message: string;
        };
        LimitList: {
            items: components["schemas"]["InspectionRuleSet"][];
            nextCursor: null;
            vehicle: components["schemas"]["VehicleRules"] | null;
            notes: components["schemas"]["LimitNote"][];
        };
        VisitHistory: {
            items: components["schemas"]["VisitVersion"][];
            /** @description null at the end. */
            nextCursor: string | null;
        };
        VehicleHistory: {
            items: components["schemas"]["VehicleVersion"][];
            /** @description null at the end. */
            nextCursor: string | null;
        };
        Audit: {
            items: components["schemas"]["AuditEntry"][];
            /** @description null at the end. */
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
            /** @description That the governing limit has been reached by the horizon. */
            chance: number;
            earlyDate: string | null;
            medianDate: string | null;
            lateDate: string | null;
            governingPad: {
                /** @enum {string} */
                side: "left" | "right";
                /** @enum {string} */
                pad: "inner" | "outer" | "leading" | "trailing" | "thinnest";
            } | null;
            limitMm: number | null;
            limitSource: string | null;
            lastReadingDate: string | null;
            /** @description Why, and what to measure: `reading-overdue`, `dates-too-far-apart`. */
            reasons: components["schemas"]["DecisionReason"][];
        };
        MeasureFirst: {
            /** Format: date */
            today: string;
            /** Format: date */
            horizon: string;
            chance: number;
            /** @description Over all pages. */
            total: number;
            items: components["schemas"]["MeasureFirstAxle"][];
            nextCursor: string | null;
        };
        RowError: {
            /** @description The line on which the row begins, from 1. */
            line: number;
            /** @description By name; null where it is of the whole row. */
            column: string | null;
            detail: string;
            /** @description Stable, kebab-case. */
            code: string;
        };
        Import: {
            id: string;
            /** @description Counts up with every step that can be seen. */
            version: number;
            /** @enum {string} */
            kind: "visits" | "vehicles";
            dryRun: boolean;
            /**
             * @description `done`: taken whole, or on a dry run without error. `refused`: it has errors and nothing of it was taken. `failed`: it was cut short and nothing of it was taken.
             * @enum {string}
             */
            state: "receiving" | "checking" | "forecasting" | "writing" | "done" | "refused" | "failed";
            /** @description Why it failed. */
            detail: string | null;
            /** @description The name of the key it was sent with. */
            by: string;
            /** @description Rows read so far, blank ones and the header aside. */
            rows: number;
            /** @description Vehicles that rows belong to. */
            vehicles: number;
            /** @description Of these, those whose rows have been checked. */
            vehiclesChecked: number;
            /** @description Of these, those whose outlook has been worked out anew. */
            vehiclesForecast: number;
            /** @description Of these, those that have been written; none can be seen before all are. */
            vehiclesWritten: number;
            /** @description Visits that were not known. */
            visitsAdded: number;
            /** @description Known visits that got something added. */
            visitsExtended: number;
            /** @description Rows that were not known. */
            rowsAdded: number;
            /** @description Rows that were known already. */
            rowsSkipped: number;
            /** @description All errors, shown or not. */
            errorsTotal: number;
            /** @description The first 1,000, by line. */
            errors: components["schemas"]["RowError"][];
            /** Format: date-time */
            createdAt: string;
            finishedAt: string | null;
        };
        ImportList: {
            items: components["schemas"]["Import"][];
            /** @description null at the end. */
            nextCursor: string | null;
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
            /** @description How many are expected: the sum of the chances of every axle. */
            expected: number;
            /** @description 10 % point of their number. */
            low: number;
            /** @description 90 % point of their number. */
            high: number;
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
            /** @description How many are expected: the sum of the chances of every axle. */
            expected: number;
            /** @description 10 % point of their number. */
            low: number;
            /** @description 90 % point of their number. */
            high: number;
            fleet: string | null;
            model: string | null;
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
        };
        PartsDemand: {
            /** Format: date */
            today: string;
            /** @description The totals in words, and what they leave out. */
            words: string;
            /** @description Axles that may need something within these months. */
            axles: number;
            /** @description Those of them whose rotors or drums nobody can tell, for want of readings or specifications; their rotors are left out. */
            rotorsUnknownCount: number;
            /** @description Axles with no projection, which are left out; see the unassessed report. */
            unassessedCount: number;
            /** @description Over all fleets, models and axles. */
            totals: components["schemas"]["PartsDemandTotal"][];
            items: components["schemas"]["PartsDemandItem"][];
            nextCursor: null;
        };
        /** @description The mean, and 10 %, 50 % and 90 % points. */
        LiningLeft: {
            expected: number;
            low: number;
            median: number;
            high: number;
        };
        PlanVisit: {
            /** Format: date */
            date: string;
            /** @description That a lining has reached its governing limit before this visit. */
            chanceTooLate: number;
            /** @description Lining thrown away if the job is done at this visit: what is left above its limit of the one that has least; 0 where the limit has been reached. */
            wastedMm: components["schemas"]["LiningLeft"];
            /** @description The same as a share of what can be used of a new lining, from new to the limit. */
            wastedShare: components["schemas"]["LiningLeft"] | null;
            /** @description `costTooLate` × `chanceTooLate` + `costPerMmWasted` × `wastedMm.expected`; null without costs. */
            expectedCost: number | null;
        };
        AxlePlan: {
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            /**
             * @description What is to be fitted.
             * @enum {string}
             */
            item: "pad-set" | "rotor-pair" | "shoe-set" | "drum-pair";
            limitMm: number | null;
            /** @description Of a new lining: from its new thickness to the limit. */
            usableMm: number | null;
            overdue: boolean;
            /** @description That the rotors or drums would not outlast the set then fitted, and so go with this one; null where nobody can tell. */
            chanceRotorsToo: number | null;
            visits: components["schemas"]["PlanVisit"][];
            /** @description One of the visits, by the rule; null where none will do. */
            recommended: string | null;
            words: string;
            reasons: components["schemas"]["Reason"][];
        };
        PlanRule: {
            /** @enum {string} */
            kind: "least-expected-cost" | "greatest-chance";
            /** @description Of coming too late; null where costs decide. */
            greatestChance: number | null;
            costTooLate: number | null;
            costPerMmWasted: number | null;
            /** @description The rule, and what it takes for granted. */
            words: string;
        };
        ReplacementPlan: {
            vehicleId: string;
            /** Format: date */
            today: string;
            asAt: components["schemas"]["AsAt"] | null;
            /**
             * @description Where the visits come from: the dates asked about, the vehicle’s rhythm, or the policy’s interval.
             * @enum {string}
             */
            dateSource: "dates" | "rhythm" | "policy";
            rule: components["schemas"]["PlanRule"];
            axles: components["schemas"]["AxlePlan"][];
            cautions: components["schemas"]["Caution"][];
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
            /** @description That the governing limit has been reached by the horizon. */
            chance: number;
            earlyDate: string | null;
            medianDate: string | null;
            lateDate: string | null;
            governingPad: {
                /** @enum {string} */
                side: "left" | "right";
                /** @enum {string} */
                pad: "inner" | "outer" | "leading" | "trailing" | "thinnest";
            } | null;
            limitMm: number | null;
            limitSource: string | null;
            lastReadingDate: string | null;
            /** @description A reading fails its limit, or more likely than not a limit has been reached. */
            overdue: boolean;
            /**
             * @description What comes first on the axle: its linings (`pads`, be they pads or shoes), its rotors or its drums. The dates, the limit and the reading are of it.
             * @enum {string}
             */
            part: "pads" | "rotors" | "drums";
            /**
             * Format: date-time
             * @description When its outlook last changed.
             */
            changedAt: string;
        };
        DueByAxle: {
            /** @enum {string} */
            axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
            total: number;
            overdueCount: number;
        };
        /** @description What is due of one fleet or model; null is what has none. */
        DueGroup: {
            fleet?: string | null;
            model?: string | null;
            /** @description Over all pages. */
            total: number;
            /** @description How many of them are overdue. */
            overdueCount: number;
            byAxle: components["schemas"]["DueByAxle"][];
        };
        DueSoon: {
            /** Format: date */
            today: string;
            /** Format: date */
            horizon: string;
            chance: number;
            /** @description Over all pages. */
            total: number;
            /** @description How many of them are overdue. */
            overdueCount: number;
            byAxle: components["schemas"]["DueByAxle"][];
            /** @description Axles with no projection; see the unassessed report. */
            unassessedCount: number;
            /** @description Axles that are not due, and better measured than planned for; see the measure-first report. */
            measureFirstCount: number;
            /** @description Axles with a stop finding that are not in this list; see the stops report. */
            stopCount: number;
            /** @description Totals over all pages by `groupBy`, in the order of the items; only where asked. */
            groups?: components["schemas"]["DueGroup"][];
            items: components["schemas"]["DueAxle"][];
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
        Unassessed: {
            /** @description Over all pages. */
            total: number;
            items: components["schemas"]["UnassessedAxle"][];
            nextCursor: string | null;
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
            /** @description The findings that say stop; the wear answer has their messages. */
            stops: components["schemas"]["StopFinding"][];
        };
        Stops: {
            /** Format: date */
            today: string;
            /** @description Over all pages. */
            total: number;
            items: components["schemas"]["StoppedAxle"][];
            nextCursor: string | null;
        };
        VehicleList: {
            items: components["schemas"]["Vehicle"][];
            /** @description null at the end. */
            nextCursor: string | null;
        };
        AxleDueEvent: {
            /** @constant */
            type: "axle.due";
            /**
             * Format: date-time
             * @description When it happened; of a later attempt too.
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
                /** @description That the governing limit has been reached by the horizon. */
                chance: number;
                earlyDate: string | null;
                medianDate: string | null;
                lateDate: string | null;
                governingPad: {
                    /** @enum {string} */
                    side: "left" | "right";
                    /** @enum {string} */
                    pad: "inner" | "outer" | "leading" | "trailing" | "thinnest";
                } | null;
                limitMm: number | null;
                limitSource: string | null;
                lastReadingDate: string | null;
                /**
                 * @description What comes first on the axle: its linings (`pads`, be they pads or shoes), its rotors or its drums. The dates, the limit and the reading are of it.
                 * @enum {string}
                 */
                part: "pads" | "rotors" | "drums";
                message: string;
                /** @description What the event does not say. */
                caution: string;
            };
        };
        LimitPassedEvent: {
            /** @constant */
            type: "limit.passed";
            /**
             * Format: date-time
             * @description When it happened; of a later attempt too.
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
                /** @description What the event does not say. */
                caution: string;
                /** @description The reading is so near the limit that its gauge cannot tell; it counts as at the limit until measured again. */
                tooCloseToTell: boolean;
            };
        };
        OffForecastEvent: {
            /** @constant */
            type: "reading.off_forecast";
            /**
             * Format: date-time
             * @description When it happened; of a later attempt too.
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
                /** @description What the event does not say. */
                caution: string;
            };
        };
        TestEvent: {
            /** @constant */
            type: "webhook.test";
            /**
             * Format: date-time
             * @description When it happened; of a later attempt too.
             */
            timestamp: string;
            data: {
                endpointId: string;
                message: string;
            };
        };
        /** @description The body of a webhook. */
        WebhookEvent: components["schemas"]["AxleDueEvent"] | components["schemas"]["LimitPassedEvent"] | components["schemas"]["OffForecastEvent"] | components["schemas"]["TestEvent"];
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
            /** @description Where events are posted: https, to a public address, without a name or password in it, unless the service is set to allow others. */
            url: string;
            /**
             * @description The events that are sent; null is all.
             * @default null
             */
            eventTypes?: ("axle.due" | "limit.passed" | "reading.off_forecast")[] | null;
            /**
             * @description Only events of vehicles in these fleets; null is every vehicle.
             * @default null
             */
            fleets?: string[] | null;
            /**
             * @description While it is false nothing is raised for it, and what is pending waits.
             * @default true
             */
            enabled?: boolean;
        };
        WebhookEndpoint: {
            id: string;
            version: number;
            url: string;
            eventTypes: ("axle.due" | "limit.passed" | "reading.off_forecast")[] | null;
            fleets: string[] | null;
            enabled: boolean;
            /** @description Why the service disabled it by itself; null where it did not. */
            disabledBecause: string | null;
            /** @description Until when the secret before the present one signs beside it; null where it does not. */
            previousSecretUntil: string | null;
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            updatedAt: string;
        };
        WebhookEndpointWithSecret: {
            id: string;
            version: number;
            url: string;
            eventTypes: ("axle.due" | "limit.passed" | "reading.off_forecast")[] | null;
            fleets: string[] | null;
            enabled: boolean;
            /** @description Why the service disabled it by itself; null where it did not. */
            disabledBecause: string | null;
            /** @description Until when the secret before the present one signs beside it; null where it does not. */
            previousSecretUntil: string | null;
            /** Format: date-time */
            createdAt: string;
            /** Format: date-time */
            updatedAt: string;
            /** @description `whsec_` and the key in base64. Shown here and never again. */
            secret: string;
        };
        /**
         * @example {
         *       "overlapHours": 24
         *     }
         */
        SecretRotationBody: {
            /**
             * @description How long the secret until now signs beside the new one; 0 ends it at once.
             * @default 24
             */
            overlapHours?: number;
        };
        DeliveryAttempt: {
            /** Format: date-time */
            at: string;
            /** @description null where no answer came. */
            status: number | null;
            /** @description What went wrong, or the first characters of what was answered. */
            detail: string;
        };
        WebhookDelivery: {
            id: string;
            version: number;
            endpointId: string;
            /** @description The webhook-id: one an event, the same at every attempt and replay. */
            webhookId: string;
            /** @enum {string} */
            type: "axle.due" | "limit.passed" | "reading.off_forecast" | "webhook.test";
            /** @enum {string} */
            status: "pending" | "delivered" | "given-up";
            /** @description The latest 20, earliest first. */
            attempts: components["schemas"]["DeliveryAttempt"][];
            nextAttemptAt: string | null;
            deliveredAt: string | null;
            /** Format: date-time */
            createdAt: string;
            event: components["schemas"]["WebhookEvent"];
        };
        WebhookDeliveryList: {
            items: components["schemas"]["WebhookDelivery"][];
            /** @description null at the end. */
            nextCursor: string | null;
        };
        WebhookEndpointList: {
            items: components["schemas"]["WebhookEndpoint"][];
            nextCursor: null;
        };
        GaugeList: {
            items: components["schemas"]["Gauge"][];
            nextCursor: null;
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
            /** @description It is. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description It can. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description An ETag; 304 where nothing has changed since. */
                "If-None-Match"?: string;
            };
            path: {
                /** @description What stands in the address when it is made. */
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
                     *      ok at the brakes.\nThese figures support a decision and do not make it: th
                     *      e maker’s instructions\, local law and licensed practice come first\, an
                     *      d no answer here says that a vehicle is fit to drive.
                     *     END:VEVENT
                     *     END:VCALENDAR
                     */
                    "text/calendar": string;
                };
            };
            /** @description The caller has this version already. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Part of a registration, VIN or externalId. Letters and digits alone count, and case does not matter. */
                find?: string;
                /** @description The vehicles with this plate. Letters and digits alone count: `kr-4471` finds `KR 4471`. */
                registration?: string;
                /** @description The vehicle with this vehicle identification number. */
                vin?: string;
                /** @description The vehicle that the caller knows by this number. */
                externalId?: string;
                /** @description Vehicles of this fleet only. */
                fleet?: string;
                /** @description Vehicles of this model only. */
                model?: string;
                /** @description Lists vehicles out of service too. */
                includeOutOfService?: boolean;
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
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
            /** @description The vehicle as it is stored. */
            201: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The vehicle is known already (`duplicate-vehicle`); A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description What was sent is well-formed but not valid (`invalid`); The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description An ETag; 304 where nothing has changed since. */
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
                    /** @description Names this version, for If-Match and If-None-Match. */
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
            /** @description The caller has this version already. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description The date from which the change holds, not in the future; missing means today. */
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
            /** @description The vehicle as changed. */
            200: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The personal data of the vehicle was erased (`vehicle-erased`); The vehicle is known already (`duplicate-vehicle`) */
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
            /** @description What was sent is well-formed but not valid (`invalid`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description Lists voided visits too. */
                includeVoided?: boolean;
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
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
            /** @description The work order was recorded before, with the same content. */
            200: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                     *           "message": "Never measured on this axle: right inner pad. What is said of it comes from the other linings.",
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
                     *           "message": "Right inner lining not measured at the latest visit: wheel not removed. No earlier reading of it is known either.",
                     *           "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *           "numbers": {}
                     *         }
                     *       ],
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision and do not make it: the maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Take brake dust for harmful: wet or enclosed vacuum cleaning; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque by the maker’s figure; build up pedal pressure before the wheels turn; bed in new parts and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself: put it into its service mode before touching its calipers.",
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
                     *             "why": "Right inner not measured yet, limit 3 mm (wear indicator). 44 % chance it gets there by the next visit, about 31 August 2026.",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "detail": "not measured since it was fitted or first known"
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *               "lowerQuartile": "2026-06-28",
                     *               "median": "2026-09-21",
                     *               "upperQuartile": "2027-01-06",
                     *               "late": "2027-05-16"
                     *             },
                     *             "overdue": false,
                     *             "basis": {
                     *               "readings": 3,
                     *               "experience": "starting-values",
                     *               "set": "unknown",
                     *               "words": "3 readings of these pads, whose fitting is not known, and starting values typical of the trade, since nothing has been learned yet from other vehicles here."
                     *             },
                     *             "untilNextVisit": {
                     *               "date": "2026-08-31",
                     *               "dateSource": "policy",
                     *               "chanceLimitReached": 0.4402
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
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": 0.0381,
                     *               "runoutConformity": "conforms",
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00675,
                     *                 "median": 0.0088,
                     *                 "high": 0.01088
                     *               },
                     *               "date": {
                     *                 "early": "2031-08-23",
                     *                 "lowerQuartile": "2032-10-05",
                     *                 "median": "2034-02-13",
                     *                 "upperQuartile": "2035-10-12",
                     *                 "late": "2038-03-22"
                     *               },
                     *               "marginAtPadReplacementMm": {
                     *                 "low": 1.252,
                     *                 "median": 1.361,
                     *                 "high": 1.437
                     *               },
                     *               "marginAfterNextPadSetMm": {
                     *                 "low": 0.849,
                     *                 "median": 1.13,
                     *                 "high": 1.334
                     *               },
                     *               "decision": "keep",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "margin",
                     *                   "detail": "thinnest point 27.457 mm, discard thickness 26 mm: 1.457 mm above on 2026-03-02"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs two points or more; there is 1"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no variation, or no limit for it, is known"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": 0.0004
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
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": null,
                     *               "runoutConformity": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00612,
                     *                 "median": 0.00888,
                     *                 "high": 0.01257
                     *               },
                     *               "date": null,
                     *               "marginAtPadReplacementMm": null,
                     *               "marginAfterNextPadSetMm": null,
                     *               "decision": "measure",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latestDate",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "thinnestMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "marginMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "marginStandardUncertaintyMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "conformity",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no variation, or no limit for it, is known"
                     *                 },
                     *                 {
                     *                   "field": "runoutMm",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "runoutConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no run-out, or no limit for it, is known"
                     *                 },
                     *                 {
                     *                   "field": "date",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor"
                     *                 },
                     *                 {
                     *                   "field": "marginAtPadReplacementMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor, and a forecast of the pads"
                     *                 },
                     *                 {
                     *                   "field": "marginAfterNextPadSetMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor, and a forecast of the pads"
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
                     *               "message": "Never measured on this axle: right inner pad. What is said of it comes from the other linings.",
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
                     *               "message": "Right inner lining not measured at the latest visit: wheel not removed. No earlier reading of it is known either.",
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
            /** @description The visit as it is stored, and what follows from it. */
            201: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                     *           "message": "Never measured on this axle: right inner pad. What is said of it comes from the other linings.",
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
                     *           "message": "Right inner lining not measured at the latest visit: wheel not removed. No earlier reading of it is known either.",
                     *           "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *           "numbers": {}
                     *         }
                     *       ],
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision and do not make it: the maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Take brake dust for harmful: wet or enclosed vacuum cleaning; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque by the maker’s figure; build up pedal pressure before the wheels turn; bed in new parts and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself: put it into its service mode before touching its calipers.",
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
                     *             "why": "Right inner not measured yet, limit 3 mm (wear indicator). 44 % chance it gets there by the next visit, about 31 August 2026.",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "detail": "not measured since it was fitted or first known"
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *               "lowerQuartile": "2026-06-28",
                     *               "median": "2026-09-21",
                     *               "upperQuartile": "2027-01-06",
                     *               "late": "2027-05-16"
                     *             },
                     *             "overdue": false,
                     *             "basis": {
                     *               "readings": 3,
                     *               "experience": "starting-values",
                     *               "set": "unknown",
                     *               "words": "3 readings of these pads, whose fitting is not known, and starting values typical of the trade, since nothing has been learned yet from other vehicles here."
                     *             },
                     *             "untilNextVisit": {
                     *               "date": "2026-08-31",
                     *               "dateSource": "policy",
                     *               "chanceLimitReached": 0.4402
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
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": 0.0381,
                     *               "runoutConformity": "conforms",
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00675,
                     *                 "median": 0.0088,
                     *                 "high": 0.01088
                     *               },
                     *               "date": {
                     *                 "early": "2031-08-23",
                     *                 "lowerQuartile": "2032-10-05",
                     *                 "median": "2034-02-13",
                     *                 "upperQuartile": "2035-10-12",
                     *                 "late": "2038-03-22"
                     *               },
                     *               "marginAtPadReplacementMm": {
                     *                 "low": 1.252,
                     *                 "median": 1.361,
                     *                 "high": 1.437
                     *               },
                     *               "marginAfterNextPadSetMm": {
                     *                 "low": 0.849,
                     *                 "median": 1.13,
                     *                 "high": 1.334
                     *               },
                     *               "decision": "keep",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "margin",
                     *                   "detail": "thinnest point 27.457 mm, discard thickness 26 mm: 1.457 mm above on 2026-03-02"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs two points or more; there is 1"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no variation, or no limit for it, is known"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": 0.0004
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
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": null,
                     *               "runoutConformity": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00612,
                     *                 "median": 0.00888,
                     *                 "high": 0.01257
                     *               },
                     *               "date": null,
                     *               "marginAtPadReplacementMm": null,
                     *               "marginAfterNextPadSetMm": null,
                     *               "decision": "measure",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latestDate",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "thinnestMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "marginMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "marginStandardUncertaintyMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "conformity",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no variation, or no limit for it, is known"
                     *                 },
                     *                 {
                     *                   "field": "runoutMm",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "runoutConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no run-out, or no limit for it, is known"
                     *                 },
                     *                 {
                     *                   "field": "date",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor"
                     *                 },
                     *                 {
                     *                   "field": "marginAtPadReplacementMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor, and a forecast of the pads"
                     *                 },
                     *                 {
                     *                   "field": "marginAfterNextPadSetMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor, and a forecast of the pads"
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
                     *               "message": "Never measured on this axle: right inner pad. What is said of it comes from the other linings.",
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
                     *               "message": "Right inner lining not measured at the latest visit: wheel not removed. No earlier reading of it is known either.",
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
                    /** @description The scheme that is asked for. */
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
            /** @description The work order is recorded already with other content (`work-order-known`); The personal data of the vehicle was erased (`vehicle-erased`); The visit has its road test already (`road-test-recorded`); The visit is voided (`visit-voided`); A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description What was sent is well-formed but not valid (`invalid`); The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description An ETag; 304 where nothing has changed since. */
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
                    /** @description Names this version, for If-Match and If-None-Match. */
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
            /** @description The caller has this version already. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
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
            /** @description The visit as it now is, and what follows from it. */
            201: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                     *           "message": "Never measured on this axle: right inner pad. What is said of it comes from the other linings.",
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
                     *           "message": "Right inner lining not measured at the latest visit: wheel not removed. No earlier reading of it is known either.",
                     *           "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *           "numbers": {}
                     *         }
                     *       ],
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision and do not make it: the maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Take brake dust for harmful: wet or enclosed vacuum cleaning; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque by the maker’s figure; build up pedal pressure before the wheels turn; bed in new parts and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself: put it into its service mode before touching its calipers.",
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
                     *             "why": "Right inner not measured yet, limit 3 mm (wear indicator). 44 % chance it gets there by the next visit, about 31 August 2026.",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "detail": "not measured since it was fitted or first known"
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *               "lowerQuartile": "2026-06-28",
                     *               "median": "2026-09-21",
                     *               "upperQuartile": "2027-01-06",
                     *               "late": "2027-05-16"
                     *             },
                     *             "overdue": false,
                     *             "basis": {
                     *               "readings": 3,
                     *               "experience": "starting-values",
                     *               "set": "unknown",
                     *               "words": "3 readings of these pads, whose fitting is not known, and starting values typical of the trade, since nothing has been learned yet from other vehicles here."
                     *             },
                     *             "untilNextVisit": {
                     *               "date": "2026-08-31",
                     *               "dateSource": "policy",
                     *               "chanceLimitReached": 0.4402
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
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": 0.0381,
                     *               "runoutConformity": "conforms",
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00675,
                     *                 "median": 0.0088,
                     *                 "high": 0.01088
                     *               },
                     *               "date": {
                     *                 "early": "2031-08-23",
                     *                 "lowerQuartile": "2032-10-05",
                     *                 "median": "2034-02-13",
                     *                 "upperQuartile": "2035-10-12",
                     *                 "late": "2038-03-22"
                     *               },
                     *               "marginAtPadReplacementMm": {
                     *                 "low": 1.252,
                     *                 "median": 1.361,
                     *                 "high": 1.437
                     *               },
                     *               "marginAfterNextPadSetMm": {
                     *                 "low": 0.849,
                     *                 "median": 1.13,
                     *                 "high": 1.334
                     *               },
                     *               "decision": "keep",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "margin",
                     *                   "detail": "thinnest point 27.457 mm, discard thickness 26 mm: 1.457 mm above on 2026-03-02"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs two points or more; there is 1"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no variation, or no limit for it, is known"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": 0.0004
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
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": null,
                     *               "runoutConformity": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00612,
                     *                 "median": 0.00888,
                     *                 "high": 0.01257
                     *               },
                     *               "date": null,
                     *               "marginAtPadReplacementMm": null,
                     *               "marginAfterNextPadSetMm": null,
                     *               "decision": "measure",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latestDate",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "thinnestMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "marginMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "marginStandardUncertaintyMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "conformity",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no variation, or no limit for it, is known"
                     *                 },
                     *                 {
                     *                   "field": "runoutMm",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "runoutConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no run-out, or no limit for it, is known"
                     *                 },
                     *                 {
                     *                   "field": "date",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor"
                     *                 },
                     *                 {
                     *                   "field": "marginAtPadReplacementMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor, and a forecast of the pads"
                     *                 },
                     *                 {
                     *                   "field": "marginAfterNextPadSetMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor, and a forecast of the pads"
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
                     *               "message": "Never measured on this axle: right inner pad. What is said of it comes from the other linings.",
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
                     *               "message": "Right inner lining not measured at the latest visit: wheel not removed. No earlier reading of it is known either.",
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
                    /** @description The scheme that is asked for. */
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
            /** @description The work order is recorded already with other content (`work-order-known`); The personal data of the vehicle was erased (`vehicle-erased`); The visit has its road test already (`road-test-recorded`); The visit is voided (`visit-voided`); A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description What was sent is well-formed but not valid (`invalid`); The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                     *           "message": "The right rotor of the front axle: measure, because not measured since it was fitted or first known. Measure and record the reading.",
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
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
            /** @description The visit as it now stands, and what follows from it. */
            200: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                     *           "message": "Never measured on this axle: right inner pad. What is said of it comes from the other linings.",
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
                     *           "message": "Right inner lining not measured at the latest visit: wheel not removed. No earlier reading of it is known either.",
                     *           "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *           "numbers": {}
                     *         }
                     *       ],
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision and do not make it: the maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Take brake dust for harmful: wet or enclosed vacuum cleaning; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque by the maker’s figure; build up pedal pressure before the wheels turn; bed in new parts and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself: put it into its service mode before touching its calipers.",
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
                     *             "why": "Right inner not measured yet, limit 3 mm (wear indicator). 44 % chance it gets there by the next visit, about 31 August 2026.",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "detail": "not measured since it was fitted or first known"
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *               "lowerQuartile": "2026-06-28",
                     *               "median": "2026-09-21",
                     *               "upperQuartile": "2027-01-06",
                     *               "late": "2027-05-16"
                     *             },
                     *             "overdue": false,
                     *             "basis": {
                     *               "readings": 3,
                     *               "experience": "starting-values",
                     *               "set": "unknown",
                     *               "words": "3 readings of these pads, whose fitting is not known, and starting values typical of the trade, since nothing has been learned yet from other vehicles here."
                     *             },
                     *             "untilNextVisit": {
                     *               "date": "2026-08-31",
                     *               "dateSource": "policy",
                     *               "chanceLimitReached": 0.4402
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
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": 0.0381,
                     *               "runoutConformity": "conforms",
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00675,
                     *                 "median": 0.0088,
                     *                 "high": 0.01088
                     *               },
                     *               "date": {
                     *                 "early": "2031-08-23",
                     *                 "lowerQuartile": "2032-10-05",
                     *                 "median": "2034-02-13",
                     *                 "upperQuartile": "2035-10-12",
                     *                 "late": "2038-03-22"
                     *               },
                     *               "marginAtPadReplacementMm": {
                     *                 "low": 1.252,
                     *                 "median": 1.361,
                     *                 "high": 1.437
                     *               },
                     *               "marginAfterNextPadSetMm": {
                     *                 "low": 0.849,
                     *                 "median": 1.13,
                     *                 "high": 1.334
                     *               },
                     *               "decision": "keep",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "margin",
                     *                   "detail": "thinnest point 27.457 mm, discard thickness 26 mm: 1.457 mm above on 2026-03-02"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs two points or more; there is 1"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no variation, or no limit for it, is known"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": 0.0004
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
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": null,
                     *               "runoutConformity": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00612,
                     *                 "median": 0.00888,
                     *                 "high": 0.01257
                     *               },
                     *               "date": null,
                     *               "marginAtPadReplacementMm": null,
                     *               "marginAfterNextPadSetMm": null,
                     *               "decision": "measure",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latestDate",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "thinnestMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "marginMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "marginStandardUncertaintyMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "conformity",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no variation, or no limit for it, is known"
                     *                 },
                     *                 {
                     *                   "field": "runoutMm",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "runoutConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no run-out, or no limit for it, is known"
                     *                 },
                     *                 {
                     *                   "field": "date",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor"
                     *                 },
                     *                 {
                     *                   "field": "marginAtPadReplacementMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor, and a forecast of the pads"
                     *                 },
                     *                 {
                     *                   "field": "marginAfterNextPadSetMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor, and a forecast of the pads"
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
                     *               "message": "Never measured on this axle: right inner pad. What is said of it comes from the other linings.",
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
                     *               "message": "Right inner lining not measured at the latest visit: wheel not removed. No earlier reading of it is known either.",
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
                    /** @description The scheme that is asked for. */
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
            /** @description The personal data of the vehicle was erased (`vehicle-erased`); The work order is recorded already with other content (`work-order-known`); The visit is voided (`visit-voided`); The visit is not voided (`visit-not-voided`); A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description What was sent is well-formed but not valid (`invalid`); The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
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
            /** @description The vehicle as it now stands. */
            200: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The personal data of the vehicle was erased (`vehicle-erased`); Both records have a visit of one work order (`work-orders-collide`); A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description What was sent is well-formed but not valid (`invalid`); The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description RFC 3339 instant; missing means from the first. */
                since?: string;
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description A page of the audit. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Answer from what was known on this date. */
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
            /** @description The wear answer. */
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
                     *           "low": 50.49,
                     *           "median": 60.14,
                     *           "high": 71.72
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
                     *             "why": "Right inner not measured yet, limit 3 mm (wear indicator). 44 % chance it gets there by the next visit, about 31 August 2026.",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *                   "detail": "not measured since it was fitted or first known"
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
                     *                   "rule": "thickness at which the mechanical wear indicator speaks",
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
                     *                   "rule": "least thickness in the vehicle’s or part’s specification",
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
                     *               "lowerQuartile": "2026-06-28",
                     *               "median": "2026-09-21",
                     *               "upperQuartile": "2027-01-06",
                     *               "late": "2027-05-16"
                     *             },
                     *             "overdue": false,
                     *             "basis": {
                     *               "readings": 3,
                     *               "experience": "starting-values",
                     *               "set": "unknown",
                     *               "words": "3 readings of these pads, whose fitting is not known, and starting values typical of the trade, since nothing has been learned yet from other vehicles here."
                     *             },
                     *             "untilNextVisit": {
                     *               "date": "2026-08-31",
                     *               "dateSource": "policy",
                     *               "chanceLimitReached": 0.4402
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
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": 0.0381,
                     *               "runoutConformity": "conforms",
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00675,
                     *                 "median": 0.0088,
                     *                 "high": 0.01088
                     *               },
                     *               "date": {
                     *                 "early": "2031-08-23",
                     *                 "lowerQuartile": "2032-10-05",
                     *                 "median": "2034-02-13",
                     *                 "upperQuartile": "2035-10-12",
                     *                 "late": "2038-03-22"
                     *               },
                     *               "marginAtPadReplacementMm": {
                     *                 "low": 1.252,
                     *                 "median": 1.361,
                     *                 "high": 1.437
                     *               },
                     *               "marginAfterNextPadSetMm": {
                     *                 "low": 0.849,
                     *                 "median": 1.13,
                     *                 "high": 1.334
                     *               },
                     *               "decision": "keep",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "margin",
                     *                   "detail": "thinnest point 27.457 mm, discard thickness 26 mm: 1.457 mm above on 2026-03-02"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "too-few-points",
                     *                   "detail": "variation needs two points or more; there is 1"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no variation, or no limit for it, is known"
                     *                 }
                     *               ],
                     *               "untilNextVisit": {
                     *                 "date": "2026-08-31",
                     *                 "dateSource": "policy",
                     *                 "chanceLimitReached": 0.0004
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
                     *               "variationMm": null,
                     *               "variationConformity": null,
                     *               "runoutMm": null,
                     *               "runoutConformity": null,
                     *               "ratePer1000KmMm": {
                     *                 "low": 0.00612,
                     *                 "median": 0.00888,
                     *                 "high": 0.01257
                     *               },
                     *               "date": null,
                     *               "marginAtPadReplacementMm": null,
                     *               "marginAfterNextPadSetMm": null,
                     *               "decision": "measure",
                     *               "decisionReasons": [
                     *                 {
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 }
                     *               ],
                     *               "reasons": [
                     *                 {
                     *                   "field": "latestDate",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "thinnestMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "marginMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "marginStandardUncertaintyMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "conformity",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "variationMm",
                     *                   "code": "no-readings",
                     *                   "detail": "not measured since it was fitted or first known"
                     *                 },
                     *                 {
                     *                   "field": "variationConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no variation, or no limit for it, is known"
                     *                 },
                     *                 {
                     *                   "field": "runoutMm",
                     *                   "code": "no-readings",
                     *                   "detail": "run-out has not been measured"
                     *                 },
                     *                 {
                     *                   "field": "runoutConformity",
                     *                   "code": "no-limit",
                     *                   "detail": "no run-out, or no limit for it, is known"
                     *                 },
                     *                 {
                     *                   "field": "date",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor"
                     *                 },
                     *                 {
                     *                   "field": "marginAtPadReplacementMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor, and a forecast of the pads"
                     *                 },
                     *                 {
                     *                   "field": "marginAfterNextPadSetMm",
                     *                   "code": "no-forecast",
                     *                   "detail": "needs a thickness and a discard thickness of the rotor, and a forecast of the pads"
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
                     *               "message": "Never measured on this axle: right inner pad. What is said of it comes from the other linings.",
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
                     *               "message": "Right inner lining not measured at the latest visit: wheel not removed. No earlier reading of it is known either.",
                     *               "check": "Measure it at the next visit. The lining that is hardest to reach is often the thinnest.",
                     *               "numbers": {}
                     *             }
                     *           ]
                     *         }
                     *       ],
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision and do not make it: the maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Take brake dust for harmful: wet or enclosed vacuum cleaning; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque by the maker’s figure; build up pedal pressure before the wheels turn; bed in new parts and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself: put it into its service mode before touching its calipers.",
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description The axle that is drawn. */
                axle: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                /** @description Answer from what was known on this date. */
                asOf?: string;
            };
            header?: {
                /** @description An ETag; 304 where nothing has changed since. */
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
            /** @description The caller has this version already. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description The coming visits, such as the seasonal changes of tyres, repeated or with commas between them; where it is missing, the next six by the vehicle’s rhythm or the policy’s interval. */
                dates?: string[];
                /** @description What it costs when the limit comes first: a rotor, a breakdown, a day lost. */
                costTooLate?: number;
                /** @description What a millimetre of lining costs that is thrown away. */
                costPerMmWasted?: number;
                /** @description The greatest chance of coming too late that is still taken where no costs are given; the policy’s where it is missing, 0.1 by default. */
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
                     *         "words": "The visit with the least expected cost: 500 times the chance that the limit comes first, and 12 for every millimetre of lining thrown away. It takes for granted that the job is done at one of these visits, costs the same at each, that coming too late costs the same however late, and that nothing is measured before. It is a forecast: look at the brakes at every visit until then."
                     *       },
                     *       "cautions": [
                     *         {
                     *           "code": "maker-law-and-licence",
                     *           "message": "These figures support a decision and do not make it: the maker’s instructions, local law and licensed practice come first, and no answer here says that a vehicle is fit to drive.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "lifting",
                     *           "message": "Work only under a vehicle that stands on rated supports on firm ground, never on a jack alone.",
                     *           "source": "29 CFR 1910.244(a)(2)(iii): a raised load is cribbed, blocked or otherwise secured at once"
                     *         },
                     *         {
                     *           "code": "brake-dust",
                     *           "message": "Take brake dust for harmful: wet or enclosed vacuum cleaning; never brush it dry or blow it off.",
                     *           "source": "29 CFR 1910.1001 appendix F"
                     *         },
                     *         {
                     *           "code": "before-moving",
                     *           "message": "Torque by the maker’s figure; build up pedal pressure before the wheels turn; bed in new parts and road-test where it is allowed and clear.",
                     *           "source": "common practice, no source"
                     *         },
                     *         {
                     *           "code": "electric-parking-brake",
                     *           "message": "The parking brake may apply by itself: put it into its service mode before touching its calipers.",
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
                     *           "chanceRotorsToo": 0,
                     *           "visits": [
                     *             {
                     *               "date": "2026-12-01",
                     *               "chanceTooLate": 0.6778,
                     *               "wastedMm": {
                     *                 "expected": 0.372,
                     *                 "low": 0,
                     *                 "median": 0,
                     *                 "high": 1.418
                     *               },
                     *               "wastedShare": {
                     *                 "expected": 0.0465,
                     *                 "low": 0,
                     *                 "median": 0,
                     *                 "high": 0.1772
                     *               },
                     *               "expectedCost": 343.364
                     *             },
                     *             {
                     *               "date": "2027-04-10",
                     *               "chanceTooLate": 0.8681,
                     *               "wastedMm": {
                     *                 "expected": 0.144,
                     *                 "low": 0,
                     *                 "median": 0,
                     *                 "high": 0.276
                     *               },
                     *               "wastedShare": {
                     *                 "expected": 0.018,
                     *                 "low": 0,
                     *                 "median": 0,
                     *                 "high": 0.0345
                     *               },
                     *               "expectedCost": 435.778
                     *             }
                     *           ],
                     *           "recommended": "2026-12-01",
                     *           "words": "Likely too late: by 1 December 2026, the visit that this rule picks, at an expected cost of 343.36, the front pads have reached their limit with a chance of 68 %. Fit them before 4 May 2026.",
                     *           "reasons": [
                     *             {
                     *               "field": "recommended",
                     *               "code": "likely-too-late",
                     *               "detail": "the visit with the least expected cost comes after the limit more likely than not: an earlier visit is safer"
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Days from today to the horizon; the policy’s where it is missing, 60 by default. */
                withinDays?: number;
                /** @description The least chance that is listed; the policy’s where it is missing, 0.1 by default. */
                chance?: number;
                /** @description Vehicles of this fleet only. */
                fleet?: string;
                /** @description This axle only. */
                axle?: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                /** @description Orders the items by this first, in every format, and adds its totals to JSON. */
                groupBy?: "fleet" | "model";
                /** @description json where it is missing; CSV and iCalendar are never paged. */
                format?: "json" | "csv" | "ics";
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The axles that are due. */
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
                     *      ok at the brakes.\nThese figures support a decision and do not make it: th
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Vehicles of this fleet only. */
                fleet?: string;
                /** @description json where it is missing; CSV is never paged. */
                format?: "json" | "csv";
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The axles that are not assessed. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Days from today to the horizon; the policy’s where it is missing, 60 by default. */
                withinDays?: number;
                /** @description The least chance that is listed; the policy’s where it is missing, 0.1 by default. */
                chance?: number;
                /** @description Vehicles of this fleet only. */
                fleet?: string;
                /** @description This axle only. */
                axle?: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                /** @description json where it is missing; CSV is never paged. */
                format?: "json" | "csv";
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
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
                     *           "limitMm": 3,
                     *           "limitSource": "wear-indicator",
                     *           "lastReadingDate": "2026-03-02",
                     *           "reasons": [
                     *             {
                     *               "code": "dates-too-far-apart",
                     *               "detail": "Early and late date are 286 days apart, longer than the time between its visits, and the chance that the limit is reached by 2026-05-04 is 4.1 % already; by its visits it is next here on 2026-08-31. Measure all linings of this axle: another reading brings its dates closer together."
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Days from today to the horizon; the policy’s where it is missing, 60 by default. */
                withinDays?: number;
                /** @description The least chance that is listed; the policy’s where it is missing, 0.1 by default. */
                chance?: number;
                /** @description Vehicles of this fleet only. */
                fleet?: string;
                /** @description This axle only. */
                axle?: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                /** @description json where it is missing; CSV is never paged. */
                format?: "json" | "csv";
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
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
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description What was sent is well-formed but not valid (`invalid`); The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
            /** @description It is revoked. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description Calendar months, the current one included. */
                months?: number;
                /** @description Vehicles of this fleet only. */
                fleet?: string;
                /** @description json where it is missing; CSV is never paged. */
                format?: "json" | "csv";
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The parts that will be needed. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "today": "2026-03-05",
                     *       "words": "In March 2026: 2.4 sets of pads and 0.7 pairs of rotors. Left out: 1 axle without a forecast. Order by it, but check every brake all the same.",
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Vehicles of this fleet only. */
                fleet?: string;
                /** @description Vehicles of this model only. */
                model?: string;
                /** @description This axle only. */
                axle?: "front" | "rear" | "axle-1" | "axle-2" | "axle-3" | "axle-4" | "axle-5" | "axle-6" | "axle-7" | "axle-8" | "axle-9";
                /** @description json where it is missing; CSV is never paged. */
                format?: "json" | "csv";
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
                cursor?: string;
            };
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description How past forecasts did. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    /**
                     * @example {
                     *       "words": "Of 10 forecasts for 5 sets of pads on 5 vehicles, 10 (100 %, where 80 % was meant) held the day on which the first pad reached its limit between their early and late dates; in 0 it came sooner, in 0 later. Half of the median dates were off by 46 days or less; on average they were off by 47, and on the whole 47 days too early. Their error is 30.53 times that of the rate from new to the latest reading on the same 10 forecasts, and 36.77 times that of a straight line through all readings on the same 10 forecasts. Dates held for 100 % of sets that came with the vehicle and 100 % of sets of unknown age. Of 30 pad readings on 5 vehicles, foretold at the visit before, 100 % lay inside their 80 % interval; they were off by 0.06 mm on average, gauge included.",
                     *       "dates": {
                     *         "total": {
                     *           "vehicles": 5,
                     *           "padSets": 5,
                     *           "forecasts": 10,
                     *           "underWay": 0,
                     *           "figures": {
                     *             "interpolatedShare": 1,
                     *             "extrapolatedShare": 0,
                     *             "meanAbsoluteErrorDays": 46.8,
                     *             "medianAbsoluteErrorDays": 46.4,
                     *             "biasDays": -46.8,
                     *             "meanAbsoluteErrorKm": 5308.4,
                     *             "biasKm": -5308.4,
                     *             "inside80": 10,
                     *             "before80": 0,
                     *             "after80": 0,
                     *             "inside80Share": 1,
                     *             "inside80StandardError": 0,
                     *             "inside80ShareWithUnderWay": 1,
                     *             "againstTwoPoint": {
                     *               "forecasts": 10,
                     *               "meanAbsoluteErrorDays": 1.5,
                     *               "ratio": 30.53
                     *             },
                     *             "againstLine": {
                     *               "forecasts": 10,
                     *               "meanAbsoluteErrorDays": 1.3,
                     *               "ratio": 36.77
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
                     *               "meanAbsoluteErrorDays": 46.8,
                     *               "medianAbsoluteErrorDays": 46.4,
                     *               "biasDays": -46.8,
                     *               "meanAbsoluteErrorKm": 5308.4,
                     *               "biasKm": -5308.4,
                     *               "inside80": 10,
                     *               "before80": 0,
                     *               "after80": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside80ShareWithUnderWay": 1,
                     *               "againstTwoPoint": {
                     *                 "forecasts": 10,
                     *                 "meanAbsoluteErrorDays": 1.5,
                     *                 "ratio": 30.53
                     *               },
                     *               "againstLine": {
                     *                 "forecasts": 10,
                     *                 "meanAbsoluteErrorDays": 1.3,
                     *                 "ratio": 36.77
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
                     *               "meanAbsoluteErrorDays": 61,
                     *               "medianAbsoluteErrorDays": 58.9,
                     *               "biasDays": -61,
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
                     *                 "ratio": 30.5
                     *               },
                     *               "againstLine": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 2,
                     *                 "ratio": 30.5
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
                     *               "meanAbsoluteErrorDays": 32.7,
                     *               "medianAbsoluteErrorDays": 32,
                     *               "biasDays": -32.7,
                     *               "meanAbsoluteErrorKm": 3392.1,
                     *               "biasKm": -3392.1,
                     *               "inside80": 5,
                     *               "before80": 0,
                     *               "after80": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside80ShareWithUnderWay": 1,
                     *               "againstTwoPoint": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 1.1,
                     *                 "ratio": 30.59
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
                     *                 "detail": "the rule was less than a day off"
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
                     *               "meanAbsoluteErrorDays": 32.7,
                     *               "medianAbsoluteErrorDays": 32,
                     *               "biasDays": -32.7,
                     *               "meanAbsoluteErrorKm": 3392.1,
                     *               "biasKm": -3392.1,
                     *               "inside80": 5,
                     *               "before80": 0,
                     *               "after80": 0,
                     *               "inside80Share": 1,
                     *               "inside80StandardError": 0,
                     *               "inside80ShareWithUnderWay": 1,
                     *               "againstTwoPoint": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 1.1,
                     *                 "ratio": 30.59
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
                     *                 "detail": "the rule was less than a day off"
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
                     *               "meanAbsoluteErrorDays": 61,
                     *               "medianAbsoluteErrorDays": 58.9,
                     *               "biasDays": -61,
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
                     *                 "ratio": 30.5
                     *               },
                     *               "againstLine": {
                     *                 "forecasts": 5,
                     *                 "meanAbsoluteErrorDays": 2,
                     *                 "ratio": 30.5
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
                     *                 "detail": "the forecasts of 0 vehicles can be held against a next reading; at least 5 are needed"
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
                     *                 "detail": "the forecasts of 0 vehicles can be held against a next reading; at least 5 are needed"
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
                     *                 "detail": "the forecasts of 0 vehicles can be held against a next reading; at least 5 are needed"
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
                     *                 "detail": "the forecasts of 0 vehicles can be held against a next reading; at least 5 are needed"
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
                     *                 "detail": "the forecasts of 0 vehicles can be held against a next reading; at least 5 are needed"
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
                     *           "medianDate": "2024-08-28",
                     *           "lateDate": "2024-11-30",
                     *           "reachedDate": "2024-10-09",
                     *           "howKnown": "interpolated",
                     *           "errorDays": -42,
                     *           "errorKm": -4298.1,
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description An ETag; 304 where nothing has changed since. */
                "If-None-Match"?: string;
            };
            path: {
                /** @description The name of a gauge, which readings give as `gauge`. */
                name: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The gauge. */
            200: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
            /** @description The caller has this version already. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description The name of a gauge, which readings give as `gauge`. */
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
            /** @description The gauge as it now is. */
            200: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
            /** @description The gauge that was added. */
            201: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description What was sent is well-formed but not valid (`invalid`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description An ETag; 304 where nothing has changed since. */
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
                    /** @description Names this version, for If-Match and If-None-Match. */
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
            /** @description The caller has this version already. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The policy now in force. */
            200: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description What was sent is well-formed but not valid (`invalid`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                     *           "appliesTo": "commercial motor vehicles: by gross mass, or whatever their mass by the passengers or the dangerous goods that they carry, which no record here tells",
                     *           "grossMass": "4,536 kg (10,001 lb) or more",
                     *           "figures": "the millimetres printed, each a little more than the inches printed beside it",
                     *           "chosen": false,
                     *           "notOpened": "the official site: the paragraph was read in a copy, and that (d)(1) is about trucks, tractors and buses alone in a second one",
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
                     *               "clause": "steered axle of a truck, tractor or bus, air drum brake, one continuous strip of lining a shoe: not less at the shoe centre, nor worn to the wear indicator",
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
                     *               "clause": "steered axle of a truck, tractor or bus, air drum brake, two pads a shoe: not less at the shoe centre, nor worn to the wear indicator",
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
                     *               "clause": "steered axle of a truck, tractor or bus, air disc brake: not less",
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
                     *               "clause": "steered axle of a truck, tractor or bus, hydraulic disc or drum brake, or electric brake: not this or less",
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
                     *               "clause": "axle not steered, or of a trailer, air drum brake: not less at the shoe centre, nor to the wear indicator where the lining is so marked",
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
                     *               "clause": "axle not steered, or of a trailer, air disc brake: not less",
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
                     *               "clause": "axle not steered, or of a trailer, hydraulic or electric disc or drum brake: not less, on shoes at the shoe centre",
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
                     *                     "detail": "49 CFR 393.47: counts for a gross mass of 4,536 kg (10,001 lb) or more, and this vehicle is below it; what it carries or draws may bring it under the set all the same, which no record here tells"
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
                     *           "message": "Only figures that were read in the source named are here. What is not listed may still bind: other jurisdictions, other sections, cracks, contamination and damage, which no thickness tells."
                     *         },
                     *         {
                     *           "code": "rotor-figures",
                     *           "message": "A rotor under, or a drum over, its maker’s figure is not by itself an inspection failure in every jurisdiction: under some sets the marked or maker’s figure decides, under others the inspector, and the UK manual calls it no reason in itself. The maker’s word to discard it stands beside that."
                     *         },
                     *         {
                     *           "code": "linings-at-the-figure",
                     *           "message": "Boundaries are those of the text: under ‘or less’ and ‘worn to’ a reading at the figure fails (at-or-below), under ‘less than’ and ‘at least’ it does not (below)."
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Checks everything and takes nothing. */
                dryRun?: boolean;
                /** @description How the file writes its dates; YYYY-MM-DD where this is missing. The form is never guessed. */
                dates?: "YYYY-MM-DD" | "DD.MM.YYYY" | "DD/MM/YYYY" | "MM/DD/YYYY";
            };
            header?: {
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
                "Idempotency-Key"?: string;
                /** @description `respond-async` (RFC 7240): 202 once the file has come in, and the work goes on. */
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
            /** @description A dry run, or a file that added nothing. */
            200: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
            /** @description The file was taken whole. */
            201: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
            /** @description The file has come in and is being worked on; see Location. */
            202: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description The file has errors and nothing of it was taken (`import-refused`); The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description Checks everything and takes nothing. */
                dryRun?: boolean;
            };
            header?: {
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
                "Idempotency-Key"?: string;
                /** @description `respond-async` (RFC 7240): 202 once the file has come in, and the work goes on. */
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
            /** @description A dry run, or a file that added nothing. */
            200: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
            /** @description The file was taken whole. */
            201: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
            /** @description The file has come in and is being worked on; see Location. */
            202: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description The file has errors and nothing of it was taken (`import-refused`); The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description An ETag; 304 where nothing has changed since. */
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
            /** @description The import as it stands. */
            200: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
            /** @description The caller has this version already. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
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
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description There are as many webhook endpoints as there may be (`too-many-webhook-endpoints`); A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description What was sent is well-formed but not valid (`invalid`); The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description An ETag; 304 where nothing has changed since. */
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
                    /** @description Names this version, for If-Match and If-None-Match. */
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
            /** @description The caller has this version already. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description It is gone. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
            /** @description The endpoint as changed. */
            200: {
                headers: {
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description What was sent is well-formed but not valid (`invalid`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
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
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description What was sent is well-formed but not valid (`invalid`); The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
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
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                     *           "limitMm": 3,
                     *           "limitSource": "wear-indicator",
                     *           "lastReadingDate": "2026-03-02",
                     *           "part": "pads",
                     *           "message": "Fit front pads before 11 April 2026. The chance that one of the pads reaches 3 mm (wear indicator) by 1 May 2026 is 31 %. Early date 11 April 2026, median 23 May 2026, late 19 July 2026.",
                     *           "caution": "A forecast from few and coarse readings, which can change within days: it supports a decision and does not make it. Look at the brakes; the maker’s instructions, local law and licensed practice come first."
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
                    /** @description The scheme that is asked for. */
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
            /** @description The webhook endpoint is disabled (`webhook-endpoint-disabled`); A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
                /** @description Deliveries to this endpoint only. */
                endpointId?: string;
                /** @description Those in this state only. */
                status?: "pending" | "delivered" | "given-up";
                /** @description Those of this event only. */
                type?: "axle.due" | "limit.passed" | "reading.off_forecast" | "webhook.test";
                /** @description Items a page. */
                limit?: number;
                /** @description The nextCursor of the page before; bound to the other parameters. */
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
                     *               "limitMm": 3,
                     *               "limitSource": "wear-indicator",
                     *               "lastReadingDate": "2026-03-02",
                     *               "part": "pads",
                     *               "message": "Fit front pads before 11 April 2026. The chance that one of the pads reaches 3 mm (wear indicator) by 1 May 2026 is 31 %. Early date 11 April 2026, median 23 May 2026, late 19 July 2026.",
                     *               "caution": "A forecast from few and coarse readings, which can change within days: it supports a decision and does not make it. Look at the brakes; the maker’s instructions, local law and licensed practice come first."
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description An ETag; 304 where nothing has changed since. */
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
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                     *           "limitMm": 3,
                     *           "limitSource": "wear-indicator",
                     *           "lastReadingDate": "2026-03-02",
                     *           "part": "pads",
                     *           "message": "Fit front pads before 11 April 2026. The chance that one of the pads reaches 3 mm (wear indicator) by 1 May 2026 is 31 %. Early date 11 April 2026, median 23 May 2026, late 19 July 2026.",
                     *           "caution": "A forecast from few and coarse readings, which can change within days: it supports a decision and does not make it. Look at the brakes; the maker’s instructions, local law and licensed practice come first."
                     *         }
                     *       }
                     *     }
                     */
                    "application/json": components["schemas"]["WebhookDelivery"];
                };
            };
            /** @description The caller has this version already. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
                /** @description Repeats with the same key and body get the first answer again. Kept for at least 24 hours. */
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
                    /** @description Names this version, for If-Match and If-None-Match. */
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
                     *           "limitMm": 3,
                     *           "limitSource": "wear-indicator",
                     *           "lastReadingDate": "2026-03-02",
                     *           "part": "pads",
                     *           "message": "Fit front pads before 11 April 2026. The chance that one of the pads reaches 3 mm (wear indicator) by 1 May 2026 is 31 %. Early date 11 April 2026, median 23 May 2026, late 19 July 2026.",
                     *           "caution": "A forecast from few and coarse readings, which can change within days: it supports a decision and does not make it. Look at the brakes; the maker’s instructions, local law and licensed practice come first."
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
                    /** @description The scheme that is asked for. */
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
            /** @description The webhook endpoint is disabled (`webhook-endpoint-disabled`); A request with this Idempotency-Key is still under way (`request-under-way`) */
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
            /** @description The Idempotency-Key was used with another body (`idempotency-key-reused`) */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
            /** @description Nobody is signed in with this key. */
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
                    /** @description The scheme that is asked for. */
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
            /** @description The service cannot answer just now (`unavailable`) */
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
            /** @description The service has no room left to write (`storage-full`) */
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
