"""The folder as text: files, bytes, TOML text and key paths; nothing of the plan's own types.

Reading:  `read` (bytes, safely), `decode` (values or one sentence), `day` (past what a merge
          left; `plain_day` quickly), `locate` (key path to line and column), `watch` (what
          changed on the disk), `conflicts` (copies that a sync tool left).
Writing:  `lock`, `write` (atomic), `append` (logbook lines), `edit` (plan files, comments kept),
          `undo`, `archive` (daily copies).
"""
