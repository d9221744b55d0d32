-- Scores now say what was known of the set: those kept before are made again when the report is next asked for.
UPDATE `forecast_scores` SET `scores` = NULL;
