DROP INDEX `items_place`;--> statement-breakpoint
ALTER TABLE `items` ADD `seen_on` integer;--> statement-breakpoint
CREATE INDEX `items_place` ON `items` (`place_key`,`condition`,`seen_on`);--> statement-breakpoint
ALTER TABLE `places` ADD `own` integer;