CREATE TABLE `kit_templates` (
	`key` integer PRIMARY KEY NOT NULL,
	`what` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `kits` (
	`key` integer PRIMARY KEY NOT NULL,
	`state` text NOT NULL,
	`since` text,
	`seal` text,
	`found` text,
	`why` text,
	`counts` text NOT NULL,
	`counted_on` text,
	`seen_on` text
) STRICT;
--> statement-breakpoint
ALTER TABLE `places` ADD `kit` integer;