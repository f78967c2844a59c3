#!/bin/sh
# Includes run one way: each folder uses only what stands before it in the house. Core knows no Qt, and SQL
# is written in core/store alone. Prints each breach as FILE:LINE and fails.
#   check_includes.sh SOURCE_DIR
set -eu
cd "$1"

# Folder by folder, what may be included. tasting and balance stand beside each other, so do publish and
# exchange: neither sees its neighbour.
allowed() {
    case $1 in
    base) echo base ;;
    quantity) echo "base quantity" ;;
    physics) echo "$(allowed quantity) physics" ;;
    larder) echo "$(allowed physics) larder" ;;
    spec) echo "$(allowed larder) spec" ;;
    preparation) echo "$(allowed spec) preparation" ;;
    history) echo "$(allowed preparation) history" ;;
    tasting) echo "$(allowed history) tasting" ;;
    balance) echo "$(allowed history) balance" ;;
    menu) echo "$(allowed history) tasting balance menu" ;;
    service) echo "$(allowed menu) service" ;;
    publish) echo "$(allowed service) publish" ;;
    exchange) echo "$(allowed service) exchange" ;;
    store) echo "$(allowed service) publish exchange store" ;;
    *) echo "" ;;
    esac
}

breaches=$(mktemp)
trap 'rm -f "$breaches"' EXIT

for folder in core/*/; do
    name=$(basename "$folder")
    may=$(allowed "$name")
    if [ -z "$may" ]; then
        echo "core/$name: a folder without a place in the order; give it one in tests/support/check_includes.sh" >>"$breaches"
        continue
    fi
    for other in core/*/; do
        target=$(basename "$other")
        case " $may " in *" $target "*) continue ;; esac
        grep -rnE "^[[:space:]]*#[[:space:]]*include[[:space:]]+\"core/$target/" "$folder" |
            sed "s|\$|   <- core/$name must not see core/$target|" >>"$breaches" || true
    done
done

say() { # pattern, where, why
    grep -rnE --include='*.h' --include='*.cpp' "$1" $2 | sed "s|\$|   <- $3|" >>"$breaches" || true
}
say '^[[:space:]]*#[[:space:]]*include[[:space:]]+["<](ui|app)/' core 'core must not see ui or app'
say '^[[:space:]]*#[[:space:]]*include[[:space:]]+["<]app/' ui 'ui must not see app'
say '^[[:space:]]*#[[:space:]]*include[[:space:]]+[<"](Q[A-Z]|Qt)' core 'core knows no Qt'
say '^[[:space:]]*#[[:space:]]*include[[:space:]]+[<"](Q[A-Z]|Qt|ui/)' app/headless 'the headless commands know no window'
say '^[[:space:]]*#[[:space:]]*include[[:space:]]+[<"](sqlite3|SQLiteCpp)' 'ui app' 'the database is known in core/store alone'
say '^[[:space:]]*#[[:space:]]*include[[:space:]]+[<"]\.\.?/' 'core ui app' 'include by the path from the top'
outside=$(ls -d core/*/ | grep -v '^core/store/$')
say '^[[:space:]]*#[[:space:]]*include[[:space:]]+[<"](sqlite3|SQLiteCpp)' "$outside" 'the database is known in core/store alone'
say '"[^"]*\b(SELECT[[:space:]].*[[:space:]]FROM|INSERT[[:space:]]+INTO|UPDATE[[:space:]].*[[:space:]]SET|DELETE[[:space:]]+FROM|CREATE[[:space:]]+TABLE)\b' "$outside ui app" 'SQL is written in core/store alone'

if [ -s "$breaches" ]; then
    cat "$breaches"
    exit 1
fi
echo "Includes run one way; core knows no Qt; SQL stays in core/store."
