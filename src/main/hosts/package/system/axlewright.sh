#!/bin/sh
# Axlewright with the Node that lies beside it, from wherever this folder was put.
here=$(dirname "$(readlink -f "$0")")
exec "$here/../node" "$here/../program/axlewright.js" "$@"
