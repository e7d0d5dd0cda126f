#!/bin/bash
# Sets this program's solver beside SUNDIALS CVODE and scipy on the benched
# castings of problems.json: the same cells, one thread each, in turns, best of
# ROUNDS (3) times INNER (10) runs, errors against CVODE at 1e-10.
#
#   testdata/cure/compare.sh [folder for what it makes]
#
# Needs gcc, libsundials-dev (6.4.1) and python3-scipy (1.10.1) of Debian 12.
set -euo pipefail
cd "$(dirname "$0")"
out=$(realpath -m "${1:-/tmp/meniscus-compare}")
rounds=${ROUNDS:-3} inner=${INNER:-10}
python=/usr/bin/python3
mkdir -p "$out"
rm -f "$out"/*.truth "$out"/raw

gcc -O2 -Wall -o "$out/cvode" cvode.c -lsundials_cvode -lsundials_nvecserial -lm
(cd ../.. && go test -c -o "$out/cure.test" ./model/cure)
$python speed.py problems "$out"

cvode() { # problem, times, runs, rtol...
	"$out/cvode" "$out/$1.txt" "$out/$1.truth" "${@:2}" |
		awk -v p="$1" '{printf "%s|CVODE BDF, band, analytic|%s|%s|%s|%s|%s\n", p, $1, $2, $3, $4, $5}' >>"$out/raw"
}

own() { # problem, runs, tolerances
	(cd ../../model/cure && MENISCUS_TRUTH="$out" MENISCUS_TOLERANCES="$3" GOMAXPROCS=1 \
		"$out/cure.test" -test.run '^$' -test.bench "Against/^$1\$" -test.benchtime 1x -test.count "$2") |
		awk -v p="$1" '$1 ~ /^Benchmark/ {
			split($1, name, "/"); sub(/-[0-9]+$/, "", name[3])
			for (i = 3; i < NF; i += 2) v[$(i + 1)] = $i
			printf "%s|meniscus|%s|%.6f|%.6f|%.6e|%d\n", p, name[3], v["K-peak"], v["K-worst"], v["ns/op"] / 1e9, v["steps"]
		}' >>"$out/raw"
}

for round in $(seq "$rounds"); do
	for slab in hot-pour fast-pour-slowed slow-pour; do
		cvode $slab 200 "$inner" 1e-3 3e-4 1e-4 3e-5 1e-5 3e-6 1e-6 3e-7 1e-7 3e-8 1e-8
		own $slab "$inner" "1 0.5 0.2 0.1 0.05 0.02 0.01 0.005 0.002 0.001 0.0005 0.0002 0.0001"
	done
	# A run of a section by CVODE takes seconds: a tenth as many.
	for section in section section-mostly-resin; do
		cvode $section 48 "$(((inner + 9) / 10))" 1e-3 1e-4 1e-5 1e-6
		own $section "$inner" "1 0.5 0.2 0.1 0.05 0.02 0.01 0.005"
	done
done
$python speed.py scipy "$out" >>"$out/raw"
$python speed.py table "$out"
