ALTER TABLE `items` ADD `seen_on` integer;--> statement-breakpoint
ALTER TABLE `places` ADD `own` integer;