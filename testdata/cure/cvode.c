/* The castings of problems.json by SUNDIALS CVODE: variable order BDF, Newton
   with the analytic Jacobian in a band, the unknowns of a cell side by side.
   compare.sh builds and runs it; by hand

     gcc -O2 -o cvode cvode.c -lsundials_cvode -lsundials_nvecserial -lm
     ./cvode problem.txt truth.bin times rounds rtol...

   problem.txt is written by speed.py. truth.bin is read, or written by a run at
   1e-10 where there is none: the temperature of the peak, then the temperature
   of every cell at so many equally spaced times, as little-endian doubles. Prints
   for each rtol "error of the peak, worst error anywhere, best time in seconds,
   steps". Only the bare integration is timed. The library's GMRES instead of the
   band, with its band preconditioner or with none, was slower on the sections
   at every error. (Made with 6.4.1, Debian 12.) */
#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>
#include <time.h>

enum { WITHIN = 8 };

static int times, unknowns, cells, faces, films, band;
static double until, mean, swing, warmest;
static double lnA1, e1, lnA2, e2, m, n, steep, liquid, whole, bend;
static double *start, *over, *warms, *conduct, *filmConduct, *diagonal;
static int *tAt, *curing, curings, *left, *right, *filmAt;

static void *need(size_t count, size_t size)
{
	void *p = calloc(count ? count : 1, size);
	if (!p) exit(1);
	return p;
}

static double number(FILE *f)
{
	double v;
	if (fscanf(f, "%lf", &v) != 1) { fprintf(stderr, "a number is missing\n"); exit(1); }
	return v;
}

static void readProblem(const char *name)
{
	FILE *f = fopen(name, "r");
	if (!f) { perror(name); exit(1); }
	unknowns = number(f), cells = number(f), faces = number(f), films = number(f), band = number(f);
	until = number(f), mean = number(f), swing = number(f), warmest = number(f);
	lnA1 = log(number(f)), e1 = number(f), lnA2 = log(number(f)), e2 = number(f), m = number(f), n = number(f);
	steep = number(f), liquid = number(f), whole = number(f), bend = number(f);
	start = need(unknowns, sizeof *start), over = need(cells, sizeof *over), warms = need(cells, sizeof *warms);
	tAt = need(cells, sizeof *tAt), curing = need(cells, sizeof *curing), diagonal = need(cells, sizeof *diagonal);
	int at = 0;
	for (int i = 0; i < cells; i++) {
		tAt[i] = at;
		start[at++] = number(f);
		double a = number(f);
		if (a >= 0) start[at++] = a, curing[curings++] = i;
		over[i] = number(f), warms[i] = number(f);
	}
	conduct = need(faces, sizeof *conduct), left = need(faces, sizeof *left), right = need(faces, sizeof *right);
	for (int i = 0; i < faces; i++) {
		left[i] = number(f), right[i] = number(f), conduct[i] = number(f);
		diagonal[left[i]] -= conduct[i] * over[left[i]];
		diagonal[right[i]] -= conduct[i] * over[right[i]];
	}
	filmConduct = need(films, sizeof *filmConduct), filmAt = need(films, sizeof *filmAt);
	for (int i = 0; i < films; i++) {
		filmAt[i] = number(f), filmConduct[i] = number(f);
		diagonal[filmAt[i]] -= filmConduct[i] * over[filmAt[i]];
	}
	fclose(f);
}

static double room(double t)
{
	return swing == 0 ? mean : mean + swing * cos(2 * M_PI / 86400 * (t - warmest));
}

static int slope(realtype t, N_Vector yv, N_Vector fv, void *data)
{
	const double *y = NV_DATA_S(yv);
	double *f = NV_DATA_S(fv), air = room(t);
	memset(f, 0, unknowns * sizeof *f);
	for (int i = 0; i < faces; i++) {
		int l = left[i], r = right[i];
		double q = conduct[i] * (y[tAt[l]] - y[tAt[r]]);
		f[tAt[l]] -= q * over[l];
		f[tAt[r]] += q * over[r];
	}
	for (int i = 0; i < films; i++) {
		int c = filmAt[i];
		f[tAt[c]] += filmConduct[i] * (air - y[tAt[c]]) * over[c];
	}
	for (int k = 0; k < curings; k++) {
		int c = curing[k], at = tAt[c];
		double T = y[at], a = fmax(y[at + 1], 1e-12), g = 1 - a, v = 0;
		if (g > 1e-12) {
			double inv = 1 / T, lg = n * log(g);
			v = exp(lnA1 - e1 * inv + lg) + exp(lnA2 - e2 * inv + m * log(a) + lg);
			if (steep != 0) {
				double rise = T - liquid;
				v /= 1 + exp(steep * (a - rise / (whole + bend * rise)));
			}
		}
		f[at] += warms[c] * v;
		f[at + 1] = v;
	}
	return 0;
}

static int jacobian(realtype t, N_Vector yv, N_Vector fv, SUNMatrix J, void *data, N_Vector u, N_Vector v, N_Vector w)
{
	const double *y = NV_DATA_S(yv);
	SUNMatZero(J);
	for (int c = 0; c < cells; c++) SM_ELEMENT_B(J, tAt[c], tAt[c]) = diagonal[c];
	for (int i = 0; i < faces; i++) {
		int l = left[i], r = right[i];
		SM_ELEMENT_B(J, tAt[l], tAt[r]) = conduct[i] * over[l];
		SM_ELEMENT_B(J, tAt[r], tAt[l]) = conduct[i] * over[r];
	}
	for (int k = 0; k < curings; k++) {
		int c = curing[k], at = tAt[c];
		double T = y[at], a = fmax(y[at + 1], 1e-12), g = 1 - a;
		if (g <= 1e-12) continue;
		double inv = 1 / T, lg = n * log(g);
		double p = exp(lnA1 - e1 * inv + lg), q = exp(lnA2 - e2 * inv + m * log(a) + lg), r = p + q;
		double byT = (p * e1 + q * e2) * inv * inv, byA = q * m / a - r * n / g;
		if (steep != 0) {
			double rise = T - liquid, d = 1 / (whole + bend * rise);
			double s = 1 / (1 + exp(steep * (a - rise * d))), turn = steep * s * (1 - s) * r;
			byA = byA * s - turn;
			byT = byT * s + turn * whole * d * d;
		}
		SM_ELEMENT_B(J, at, at) += warms[c] * byT;
		SM_ELEMENT_B(J, at, at + 1) = warms[c] * byA;
		SM_ELEMENT_B(J, at + 1, at) = byT;
		SM_ELEMENT_B(J, at + 1, at + 1) = byA;
	}
	return 0;
}

static void must(int flag, const char *what)
{
	if (flag < 0) { fprintf(stderr, "%s: %d\n", what, flag); exit(1); }
}

static double hottest(const double *y)
{
	double top = 0;
	for (int k = 0; k < curings; k++) top = fmax(top, y[tAt[curing[k]]]);
	return top;
}

/* solve runs once. With table it fills in the temperatures at those times and
   looks for the peak within each step as well; without, it does no more than
   integrate and keep the highest temperature. Gives the time that it took. */
static double solve(double rtol, double *table, double *peak, long *steps)
{
	struct timespec before, after;
	clock_gettime(CLOCK_MONOTONIC, &before);
	SUNContext ctx;
	must(SUNContext_Create(NULL, &ctx), "SUNContext_Create");
	N_Vector y = N_VNew_Serial(unknowns, ctx), atol = N_VNew_Serial(unknowns, ctx), at = N_VNew_Serial(unknowns, ctx);
	memcpy(NV_DATA_S(y), start, unknowns * sizeof *start);
	/* Conversion is of order one but starts at a millionth. Of 1, 0.1, 0.01 and
	   0.001 times rtol this floor gave the least error for its time. */
	N_VConst(0.01 * rtol, atol);
	SUNMatrix J = SUNBandMatrix(unknowns, band, band, ctx);
	SUNLinearSolver ls = SUNLinSol_Band(y, J, ctx);
	void *mem = CVodeCreate(CV_BDF, ctx);
	must(CVodeInit(mem, slope, 0, y), "CVodeInit");
	must(CVodeSVtolerances(mem, rtol, atol), "CVodeSVtolerances");
	must(CVodeSetLinearSolver(mem, ls, J), "CVodeSetLinearSolver");
	must(CVodeSetJacFn(mem, jacobian), "CVodeSetJacFn");
	must(CVodeSetMaxNumSteps(mem, 1000000), "CVodeSetMaxNumSteps");
	double t = 0;
	int next = 1;
	*peak = hottest(start);
	while (t < until) {
		double was = t;
		must(CVode(mem, until, y, &t, CV_ONE_STEP), "CVode");
		*peak = fmax(*peak, t > until ? 0 : hottest(NV_DATA_S(y)));
		if (!table) continue;
		for (int k = 1; k < WITHIN; k++) {
			double then = was + (t - was) * k / WITHIN;
			if (then > until) break;
			must(CVodeGetDky(mem, then, 0, at), "CVodeGetDky");
			*peak = fmax(*peak, hottest(NV_DATA_S(at)));
		}
		for (; next <= times && until * next / times <= t; next++) {
			must(CVodeGetDky(mem, until * next / times, 0, at), "CVodeGetDky");
			for (int c = 0; c < cells; c++) table[(next - 1) * cells + c] = NV_DATA_S(at)[tAt[c]];
		}
	}
	must(CVodeGetNumSteps(mem, steps), "CVodeGetNumSteps");
	clock_gettime(CLOCK_MONOTONIC, &after);
	N_VDestroy(y), N_VDestroy(atol), N_VDestroy(at);
	CVodeFree(&mem);
	SUNLinSolFree(ls);
	SUNMatDestroy(J);
	SUNContext_Free(&ctx);
	return after.tv_sec - before.tv_sec + 1e-9 * (after.tv_nsec - before.tv_nsec);
}

int main(int argc, char **argv)
{
	if (argc < 5) { fprintf(stderr, "cvode problem.txt truth.bin times rounds rtol...\n"); return 1; }
	readProblem(argv[1]);
	times = atoi(argv[3]);
	size_t size = (size_t)times * cells;
	double *truth = need(size + 1, sizeof *truth), *table = need(size, sizeof *table), peak;
	long steps;
	FILE *f = fopen(argv[2], "rb");
	if (f) {
		if (fread(truth, sizeof *truth, size + 1, f) != size + 1) { fprintf(stderr, "%s is of another problem\n", argv[2]); return 1; }
	} else {
		solve(1e-10, truth + 1, truth, &steps);
		if (!(f = fopen(argv[2], "wb")) || fwrite(truth, sizeof *truth, size + 1, f) != size + 1) { perror(argv[2]); return 1; }
	}
	fclose(f);
	for (int i = 5; i < argc; i++) {
		double rtol = atof(argv[i]), worst = 0, best = INFINITY;
		solve(rtol, table, &peak, &steps);
		for (size_t k = 0; k < size; k++) worst = fmax(worst, fabs(table[k] - truth[k + 1]));
		double off = fabs(peak - truth[0]), other;
		for (int round = 0; round < atoi(argv[4]); round++) best = fmin(best, solve(rtol, NULL, &other, &steps));
		printf("%s %.6f %.6f %.6e %ld\n", argv[i], off, fmax(worst, off), best, steps);
	}
	return 0;
}
