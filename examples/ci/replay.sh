#!/bin/sh
# Replays a folder of sessions on a build server, or anywhere else. Plain POSIX shell; nothing of any server's own.
#
#   replay.sh FOLDER [more words for replay]
#
# From the surroundings, all optional:
#   KNOWNGOOD   how the program is called            (knowngood)
#   REPORT      file for the JUnit XML               (replay.xml)
#   SHARD       which share of how many, as 1/4      (all)
#   CIRCUITS    folder with the circuits of journals (where they were recorded)
#   BEFORE      a checkout of the state before, to name the values of drawings that were changed
#
# Ends with 0 when all sessions hold, 1 when something differs, 2 when something could not be run.
set -u
[ $# -ge 1 ] || { echo "usage: replay.sh FOLDER [more words for replay]" >&2; exit 2; }

set -- "$@" --format junit --output "${REPORT:-replay.xml}"
[ -z "${SHARD:-}" ] || set -- "$@" --shard "$SHARD"
[ -z "${CIRCUITS:-}" ] || set -- "$@" --circuits "$CIRCUITS"
if [ -n "${BEFORE:-}" ]; then
  # On the first commit there is none: the sessions are replayed all the same.
  if [ -d "$BEFORE" ]; then set -- "$@" --before "$BEFORE"
  else echo "no folder $BEFORE: changed values of drawings will not be named" >&2
  fi
fi

# Not in quotes on purpose: it may be several words, like "node bin/knowngood.js".
# shellcheck disable=SC2086
exec ${KNOWNGOOD:-knowngood} replay "$@"
