CREATE TABLE `agencies` (
	`key` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`rin` text,
	`rin_expires` text
) STRICT;
--> statement-breakpoint
CREATE TABLE `departments` (
	`key` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`zone` text NOT NULL,
	`state` text,
	`demo` integer NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `due` (
	`key` integer PRIMARY KEY NOT NULL,
	`item` integer NOT NULL,
	`family` text NOT NULL,
	`number_sort` text NOT NULL,
	`place_key` integer,
	`requirement` text NOT NULL,
	`basis` text NOT NULL,
	`last_on` integer,
	`due_on` integer,
	`warn_on` integer,
	`from_day` integer,
	`to_day` integer,
	`late` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE INDEX `due_item` ON `due` (`item`);--> statement-breakpoint
CREATE INDEX `due_order` ON `due` (`due_on`,`number_sort`,`basis`,`warn_on`,`family`,`place_key`,`requirement`,`from_day`,`to_day`,`item`);--> statement-breakpoint
CREATE TABLE `fact_refs` (
	`key` integer PRIMARY KEY NOT NULL,
	`fact` integer NOT NULL,
	`thing` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE INDEX `fact_refs_thing` ON `fact_refs` (`thing`);--> statement-breakpoint
CREATE TABLE `facts` (
	`key` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`entry` text NOT NULL,
	`batch` text NOT NULL,
	`n` integer NOT NULL,
	`thing` integer NOT NULL,
	`kind` text NOT NULL,
	`effective` text NOT NULL,
	`clock` integer NOT NULL,
	`device` text NOT NULL,
	`seq` integer NOT NULL,
	`recorded_at` integer NOT NULL,
	`voided_at` integer,
	`voided_by` text,
	`values` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE INDEX `facts_thing` ON `facts` (`thing`);--> statement-breakpoint
CREATE INDEX `facts_id` ON `facts` (`id`);--> statement-breakpoint
CREATE INDEX `facts_entry` ON `facts` (`entry`);--> statement-breakpoint
CREATE INDEX `facts_batch` ON `facts` (`batch`);--> statement-breakpoint
CREATE TABLE `items` (
	`key` integer PRIMARY KEY NOT NULL,
	`family` text NOT NULL,
	`number` text NOT NULL,
	`number_sort` text NOT NULL,
	`serial` text,
	`what` text NOT NULL,
	`attributes` text NOT NULL,
	`place` text,
	`place_key` integer,
	`assignment` text,
	`condition` text NOT NULL,
	`condition_since` text,
	`spec` text
) STRICT;
--> statement-breakpoint
CREATE INDEX `items_number` ON `items` (`family`,`number`);--> statement-breakpoint
CREATE INDEX `items_any_number` ON `items` (`number`);--> statement-breakpoint
CREATE INDEX `items_place` ON `items` (`place_key`);--> statement-breakpoint
CREATE INDEX `items_spec` ON `items` (`spec`);--> statement-breakpoint
CREATE TABLE `members` (
	`key` integer PRIMARY KEY NOT NULL,
	`number` text NOT NULL,
	`name` text NOT NULL,
	`position` text,
	`grants` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `places` (
	`key` integer PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`name` text NOT NULL,
	`path` text NOT NULL,
	`path_sort` text NOT NULL,
	`parent` integer,
	`rig` integer,
	`unit` integer,
	`station` integer
) STRICT;
--> statement-breakpoint
CREATE INDEX `places_parent` ON `places` (`parent`);--> statement-breakpoint
CREATE INDEX `places_unit` ON `places` (`unit`);--> statement-breakpoint
CREATE TABLE `things` (
	`key` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`kind` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE INDEX `things_id` ON `things` (`id`);--> statement-breakpoint
CREATE TABLE `units` (
	`key` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`kind` text,
	`station` text
) STRICT;
--> statement-breakpoint
CREATE TABLE `voids` (
	`key` integer PRIMARY KEY NOT NULL,
	`target` text NOT NULL,
	`entry` text NOT NULL,
	`clock` integer NOT NULL,
	`device` text NOT NULL,
	`seq` integer NOT NULL,
	`recorded_at` integer NOT NULL,
	`why` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE INDEX `voids_target` ON `voids` (`target`);--> statement-breakpoint
CREATE TABLE `arrivals` (
	`entry` text PRIMARY KEY NOT NULL,
	`learned_at` integer NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `entries` (
	`key` integer PRIMARY KEY NOT NULL,
	`text` text NOT NULL,
	`hash` text NOT NULL,
	`device` text GENERATED ALWAYS AS ((text ->> '$.device')) VIRTUAL,
	`seq` integer GENERATED ALWAYS AS ((text ->> '$.seq')) VIRTUAL,
	`clock` integer GENERATED ALWAYS AS ((text ->> '$.clock')) VIRTUAL,
	`recorded_at` integer GENERATED ALWAYS AS ((text ->> '$.recordedAt')) VIRTUAL,
	`by` text GENERATED ALWAYS AS ((text ->> '$.by')) VIRTUAL,
	`via` text GENERATED ALWAYS AS ((text ->> '$.via')) VIRTUAL,
	`batch` text GENERATED ALWAYS AS ((text ->> '$.batch')) VIRTUAL,
	`action` text GENERATED ALWAYS AS ((text ->> '$.action')) VIRTUAL,
	`v` integer GENERATED ALWAYS AS ((text ->> '$.v')) VIRTUAL,
	`prev` text GENERATED ALWAYS AS ((text ->> '$.prev')) VIRTUAL
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `entries_device_seq` ON `entries` (`device`,`seq`);--> statement-breakpoint
CREATE TABLE `heads` (
	`device` text PRIMARY KEY NOT NULL,
	`seq` integer NOT NULL,
	`clock` integer NOT NULL,
	`recorded_at` integer NOT NULL,
	`hash` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `meta` (
	`name` text PRIMARY KEY NOT NULL,
	`value` text NOT NULL
) STRICT;
--> statement-breakpoint
CREATE TABLE `pin_verifiers` (
	`key` integer PRIMARY KEY NOT NULL,
	`member` text NOT NULL,
	`salt` text NOT NULL,
	`verifier` text NOT NULL,
	`failures` integer NOT NULL,
	`locked_until` integer NOT NULL
) STRICT;
--> statement-breakpoint
CREATE INDEX `pin_verifiers_member` ON `pin_verifiers` (`member`);