# What ./evenhung and ./check share: which environment serves this checkout, is it ready, and if not, make it.
# Sourced with `root` set to the checkout's real path. POSIX sh.
# A warm start must stay cheap: one `cmp`, no Python.
# shellcheck shell=sh
: "${root:?}"

say() {
    printf 'evenhung: %s\n' "$*" >&2
}

# Set `environment` to the folder of the environment: $EVENHUNG_ENV, else .venv in the checkout,
# else (the checkout is read-only) a folder of its own in the user's cache.
choose_environment() {
    if [ -n "${EVENHUNG_ENV:-}" ]; then
        case $EVENHUNG_ENV in
            /*) environment=$EVENHUNG_ENV ;;
            *) environment=$PWD/$EVENHUNG_ENV ;;
        esac
    elif [ -w "$root" ] || environment_is_ready "$root/.venv" run; then
        environment=$root/.venv
    elif [ -n "${XDG_CACHE_HOME:-}${HOME:-}" ]; then
        checksum=$(printf %s "$root" | cksum)
        environment=${XDG_CACHE_HOME:-$HOME/.cache}/evenhung/${checksum%% *}
    else
        say "$root cannot be written and there is no home folder: name a folder to set up in by EVENHUNG_ENV"
        exit 1
    fi
}

# Is the environment $1 whole, made for this checkout and by its locks, for the purpose $2 (run, development)?
# tools/make_environment.py writes the stamp that is read here, and counts its layout up when it changes.
environment_is_ready() {
    [ -x "$1/bin/python" ] && [ -f "$1/pyvenv.cfg" ] || return 1
    { IFS= read -r stamp < "$1/lib/evenhung/stamp"; } 2>/dev/null || return 1
    [ "$stamp" = "layout 1 of $root" ] || return 1
    cmp -s "$root/requirements/run.txt" "$1/lib/evenhung/run.txt" || return 1
    [ "$2" = run ] || cmp -s "$root/requirements/dev.txt" "$1/lib/evenhung/dev.txt"
}

# Set `python` to the best Python to build on: one that the locks were tried with and that can make
# environments by itself, else a newer one that can, else any that is new enough.
find_python() {
    for wanted in \
        'import venv, ensurepip; good = (3, 11) <= version < (3, 15)' \
        'import venv, ensurepip; good = (3, 11) <= version' \
        'good = (3, 11) <= version'; do
        for python in python3 python3.14 python3.13 python3.12 python3.11; do
            "$python" -I -c "import sys; version = sys.version_info; $wanted; sys.exit(not good)" \
                < /dev/null > /dev/null 2>&1 && return 0
        done
    done
    return 1
}

# Make or renew `environment` for the purpose $1.
# Returns 3 if the Python at hand cannot make one and a system package would change that.
make_environment() {
    find_python || {
        say "Python 3.11 or newer is needed and none was found (Debian, Ubuntu: apt-get install python3 python3-venv)"
        return 1
    }
    "$python" -I "$root/tools/make_environment.py" "$root" "$environment" "$1"
}
