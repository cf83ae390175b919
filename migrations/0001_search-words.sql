CREATE VIRTUAL TABLE `words` USING fts5(`text`, `kind` UNINDEXED, tokenize = 'unicode61', prefix = '1 2 3');
