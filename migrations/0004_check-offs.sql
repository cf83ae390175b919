CREATE TABLE `checkoffs` (
	`key` integer PRIMARY KEY NOT NULL,
	`holder` text NOT NULL,
	`rig` text,
	`schedule` text,
	`occurs_on` integer,
	`shift` integer NOT NULL,
	`state` text NOT NULL,
	`started_at` text NOT NULL,
	`finished_at` text,
	`signed_on` integer,
	`signed_by` text,
	`countersigned_by` text,
	`lines` integer,
	`exceptions` integer NOT NULL
) STRICT;
--> statement-breakpoint
CREATE INDEX `checkoffs_holder` ON `checkoffs` (`holder`,`signed_on`);--> statement-breakpoint
CREATE INDEX `checkoffs_state` ON `checkoffs` (`state`);--> statement-breakpoint
CREATE TABLE `defects` (
	`key` integer PRIMARY KEY NOT NULL,
	`holder` text NOT NULL,
	`checkoff` text,
	`line` text,
	`what` text NOT NULL,
	`place` text,
	`item` integer,
	`kind` text NOT NULL,
	`next` text NOT NULL,
	`short` integer,
	`note` text,
	`since` text NOT NULL,
	`found_by` text,
	`closed_on` text,
	`closed_how` text,
	`closed_note` text
) STRICT;
--> statement-breakpoint
CREATE INDEX `defects_holder` ON `defects` (`holder`);--> statement-breakpoint
CREATE INDEX `defects_item` ON `defects` (`item`);--> statement-breakpoint
CREATE TABLE `looked` (
	`key` integer PRIMARY KEY NOT NULL,
	`checkoff` integer NOT NULL,
	`place_key` integer NOT NULL,
	`on_day` integer NOT NULL
) STRICT;
--> statement-breakpoint
CREATE INDEX `looked_place` ON `looked` (`place_key`,`on_day`);--> statement-breakpoint
CREATE INDEX `looked_checkoff` ON `looked` (`checkoff`);--> statement-breakpoint
CREATE TABLE `stock_lots` (
	`key` integer PRIMARY KEY NOT NULL,
	`stock` integer NOT NULL,
	`place` text NOT NULL,
	`lot` text,
	`expires` text,
	`on_hand` integer NOT NULL,
	`since` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE INDEX `stock_lots_stock` ON `stock_lots` (`stock`);--> statement-breakpoint
CREATE TABLE `stock_places` (
	`key` integer PRIMARY KEY NOT NULL,
	`stock` integer NOT NULL,
	`place` text NOT NULL,
	`par` integer,
	`min` integer,
	`counted_on` text
) STRICT;
--> statement-breakpoint
CREATE INDEX `stock_places_stock` ON `stock_places` (`stock`);--> statement-breakpoint
CREATE TABLE `stocks` (
	`key` integer PRIMARY KEY NOT NULL,
	`what` text NOT NULL,
	`per_box` integer,
	`two_count` integer NOT NULL,
	`kept` integer NOT NULL
) STRICT;
--> statement-breakpoint
ALTER TABLE `items` ADD `placed_on` integer;