DROP INDEX `due_order`;--> statement-breakpoint
ALTER TABLE `due` ADD `due_to` integer;--> statement-breakpoint
ALTER TABLE `due` ADD `late_on` integer;--> statement-breakpoint
ALTER TABLE `due` ADD `own` text;--> statement-breakpoint
CREATE INDEX `due_order` ON `due` (`due_on`,`number_sort`,`basis`,`warn_on`,`late_on`,`due_to`,`family`,`place_key`,`requirement`,`from_day`,`to_day`,`item`);