CREATE TABLE `attachments` (
	`sha256` text PRIMARY KEY NOT NULL,
	`mime` text NOT NULL,
	`size_bytes` integer NOT NULL,
	`bytes` blob NOT NULL,
	`learned_at` integer NOT NULL
) STRICT;
