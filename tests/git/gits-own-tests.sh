#!/bin/sh
# Git's own tests as a judge of pleach.
#
#   tests/git/gits-own-tests.sh GIT_SOURCE [PLEACH] [TEST...]
#
# GIT_SOURCE is a checkout of git's source, at the version of the git that is installed; what its
# tests need of it (t/helper/test-tool) is built there. PLEACH is target/release/pleach unless said.
#
# 1. t6403-merge-file.sh with pleach standing in for `git merge-file`. All must pass but those of
#    --object-id, which pleach does not have.
# 2. Each TEST (git's tests of merges, rebases, picks, stashes and patches unless said) with every
#    file given to pleach by `* merge=pleach`, compared with a run without: the same must pass,
#    but for what git tells no driver: see `known` below.
set -eu

source=$(cd "$1" && pwd)
pleach=${2:-target/release/pleach}
pleach=$(cd "$(dirname "$pleach")" && pwd)/$(basename "$pleach")
git=$(command -v git)
if [ $# -gt 2 ]; then
	shift 2
else
	set -- t640*.sh t641*.sh t642*.sh t643*.sh t7600-merge.sh t7602*.sh t7607*.sh t7611*.sh \
		t3400-rebase.sh t3401*.sh t3402*.sh t3403*.sh t3418*.sh t350*.sh t3510*.sh t3903*.sh \
		t4108*.sh t4117*.sh t4150*.sh t4151*.sh t4200*.sh t4300*.sh t4301*.sh t7201*.sh t2023*.sh
fi
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

make -C "$source" CFLAGS="-O1 -w" NO_CURL=1 NO_EXPAT=1 NO_GETTEXT=1 NO_PERL=1 NO_PYTHON=1 NO_TCLTK=1 \
	NO_OPENSSL=1 GIT-BUILD-OPTIONS t/helper/test-tool >"$work/build" 2>&1 || { tail "$work/build"; exit 2; }
make -C "$source/templates" >/dev/null 2>&1

mkdir "$work/as-merge-file" "$work/as-driver"
cat >"$work/as-merge-file/git" <<EOF
#!/bin/sh
if [ "\$1" = -c ] && [ "\$3" = merge-file ]; then
	GIT_CONFIG_PARAMETERS="'\$2'"; export GIT_CONFIG_PARAMETERS; shift 2
fi
if [ "\$1" = merge-file ]; then
	exec "$pleach" "\$@"
fi
exec "$git" "\$@"
EOF
cat >"$work/as-driver/git" <<EOF
#!/bin/sh
exec "$git" -c merge.pleach.driver="'$pleach' driver %O %A %B %L %P %S %X %Y" -c merge.pleach.recursive=text \\
	-c core.attributesFile="\$PLEACH_ATTRIBUTES" "\$@"
EOF
chmod +x "$work"/as-*/git
echo '* merge=pleach' >"$work/attributes"
: >"$work/no-attributes"
cd "$source/t"

# known TEST: prints the numbers of the tests that differ with any driver, ours or another.
known() {
	case $1 in
	# Looks on stdout for what git itself says about binary files.
	t6404-*) echo 5 ;;
	# Git does not tell a driver -X ours and -X theirs, nor --ours and --theirs of `git apply`.
	t6417-*) echo 3 4 ;;
	t4108-*) echo 5 6 ;;
	# Nor -X ignore-space-change and its like.
	t6432-*) echo 3 5 6 7 8 9 10 11 ;;
	# Nor --conflict of `git checkout`.
	t7201-*) echo 9 36 37 40 ;;
	# As t6417; and what goes on from there: alone, 10 and 11 pass, and 29 and 33.
	t3402-*) echo 7 8 10 11 ;;
	t4301-*) echo 4 29 33 ;;
	esac
}

# run SHIM TEST: prints the tests that fail and are not known to
run() {
	rm -rf "$work/trash"
	GIT_TEST_INSTALLED="$work/$1" sh "./$2" --root="$work/trash" 2>&1 | grep '^not ok' | grep -v TODO || true
}

status=0
echo "t6403-merge-file.sh, pleach as merge-file:"
failed=$(run as-merge-file t6403-merge-file.sh)
echo "$failed" | sed 's/^/  /'
if echo "$failed" | grep -v -e '--object-id' | grep -q .; then status=1; fi

for test; do
	for test in $test; do
		export PLEACH_ATTRIBUTES="$work/no-attributes"
		run as-driver "$test" >"$work/without"
		PLEACH_ATTRIBUTES="$work/attributes"
		run as-driver "$test" >"$work/with"
		if cmp -s "$work/without" "$work/with"; then
			echo "$test: as without pleach"
		else
			echo "$test: differs"
			diff "$work/without" "$work/with" | grep '^[<>]' >"$work/differs" || true
			numbers=$(sed -n 's/^> not ok \([0-9]*\) .*/\1/p' "$work/differs")
			if grep -q '^<' "$work/differs" || [ "$(echo $numbers)" != "$(known "$test")" ]; then
				sed 's/^/  /' "$work/differs"
				status=1
			else
				sed 's/^/  known: /' "$work/differs"
			fi
		fi
	done
done
exit $status
