/* CVODE on the problems of the solver benchmark. Arguments: problem, repeats, rtol, atol. Prints: seconds a run, steps, rate calls, end state. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <math.h>
#include <time.h>
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunlinsol/sunlinsol_dense.h>

#define Y(i) NV_Ith_S(y, i)
#define F(i) NV_Ith_S(f, i)

static int robertson(realtype t, N_Vector y, N_Vector f, void *d) {
  double fast = 1e4 * Y(1) * Y(2), slow = 0.04 * Y(0), square = 3e7 * Y(1) * Y(1);
  F(0) = fast - slow; F(1) = slow - fast - square; F(2) = square; return 0;
}
static int vanderpol(realtype t, N_Vector y, N_Vector f, void *d) {
  F(0) = Y(1); F(1) = 1000 * (1 - Y(0) * Y(0)) * Y(1) - Y(0); return 0;
}
static int hires(realtype t, N_Vector y, N_Vector f, void *d) {
  F(0) = -1.71 * Y(0) + 0.43 * Y(1) + 8.32 * Y(2) + 0.0007;
  F(1) = 1.71 * Y(0) - 8.75 * Y(1);
  F(2) = -10.03 * Y(2) + 0.43 * Y(3) + 0.035 * Y(4);
  F(3) = 8.32 * Y(1) + 1.71 * Y(2) - 1.12 * Y(3);
  F(4) = -1.745 * Y(4) + 0.43 * Y(5) + 0.43 * Y(6);
  F(5) = -280 * Y(5) * Y(7) + 0.69 * Y(3) + 1.71 * Y(4) - 0.43 * Y(5) + 0.69 * Y(6);
  F(6) = 280 * Y(5) * Y(7) - 1.81 * Y(6);
  F(7) = -F(6); return 0;
}
static int brusselator(realtype t, N_Vector y, N_Vector f, void *d) {
  F(0) = 1 + Y(0) * Y(0) * Y(1) - 4 * Y(0); F(1) = 3 * Y(0) - Y(0) * Y(0) * Y(1); return 0;
}
static int lotka(realtype t, N_Vector y, N_Vector f, void *d) {
  F(0) = 2.0 / 3 * Y(0) - 4.0 / 3 * Y(0) * Y(1); F(1) = Y(0) * Y(1) - Y(1); return 0;
}
/* Six tanks in a row, each over a weir into the next; the last is pumped back to the first. */
static int tanks(realtype t, N_Vector y, N_Vector f, void *d) {
  double in = 0.001;
  for (int i = 0; i < 5; i++) {
    double h = Y(i) - 0.5, out = h > 0 ? 0.29 * h * sqrt(h) : 0;
    F(i) = (in - out) / (0.2 + 0.2 * i); in = out;
  }
  F(5) = (in - 0.001) / 0.8; return 0;
}

int main(int argc, char **argv) {
  const char *name = argv[1]; int repeats = atoi(argv[2]); double rtol = atof(argv[3]), atol = atof(argv[4]);
  CVRhsFn law; int n; double end, start[8] = {0};
  if (!strcmp(name, "robertson")) { law = robertson; n = 3; end = 4e7; start[0] = 1; }
  else if (!strcmp(name, "vanderpol")) { law = vanderpol; n = 2; end = 2000; start[0] = 2; }
  else if (!strcmp(name, "hires")) { law = hires; n = 8; end = 321.8122; start[0] = 1; start[7] = 0.0057; }
  else if (!strcmp(name, "brusselator")) { law = brusselator; n = 2; end = 20; start[0] = 1.5; start[1] = 3; }
  else if (!strcmp(name, "lotka")) { law = lotka; n = 2; end = 30; start[0] = start[1] = 1.8; }
  else { law = tanks; n = 6; end = 3600; for (int i = 0; i < 6; i++) start[i] = 0.5; }
  SUNContext context; SUNContext_Create(NULL, &context);
  struct timespec a, b; long steps = 0, calls = 0; N_Vector y = N_VNew_Serial(n, context);
  clock_gettime(CLOCK_MONOTONIC, &a);
  for (int r = 0; r < repeats; r++) {
    for (int i = 0; i < n; i++) Y(i) = start[i];
    void *mem = CVodeCreate(CV_BDF, context); CVodeInit(mem, law, 0, y); CVodeSStolerances(mem, rtol, atol); CVodeSetMaxNumSteps(mem, 10000000);
    SUNMatrix m = SUNDenseMatrix(n, n, context); SUNLinearSolver s = SUNLinSol_Dense(y, m, context); CVodeSetLinearSolver(mem, s, m);
    double t; CVodeSetStopTime(mem, end);
    if (CVode(mem, end, y, &t, CV_NORMAL) < 0) return 1;
    CVodeGetNumSteps(mem, &steps); long lin; CVodeGetNumRhsEvals(mem, &calls); CVodeGetNumLinRhsEvals(mem, &lin); calls += lin;
    CVodeFree(&mem); SUNLinSolFree(s); SUNMatDestroy(m);
  }
  clock_gettime(CLOCK_MONOTONIC, &b);
  printf("%.9g %ld %ld", ((b.tv_sec - a.tv_sec) + 1e-9 * (b.tv_nsec - a.tv_nsec)) / repeats, steps, calls);
  for (int i = 0; i < n; i++) printf(" %.17g", Y(i));
  printf("\n"); return 0;
}
