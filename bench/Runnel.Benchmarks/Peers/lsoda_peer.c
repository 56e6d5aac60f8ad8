/* The same rates for lsoda called from R with native callbacks: deSolve's form of a compiled model. */
#include <math.h>
#include <string.h>
void nothing(void (*odeparms)(int *, double *)) { (void)odeparms; }
void robertson(int *n, double *t, double *y, double *f, double *o, int *i) {
  double fast = 1e4 * y[1] * y[2], slow = 0.04 * y[0], square = 3e7 * y[1] * y[1];
  f[0] = fast - slow; f[1] = slow - fast - square; f[2] = square;
}
void vanderpol(int *n, double *t, double *y, double *f, double *o, int *i) {
  f[0] = y[1]; f[1] = 1000 * (1 - y[0] * y[0]) * y[1] - y[0];
}
void hires(int *n, double *t, double *y, double *f, double *o, int *i) {
  f[0] = -1.71 * y[0] + 0.43 * y[1] + 8.32 * y[2] + 0.0007;
  f[1] = 1.71 * y[0] - 8.75 * y[1];
  f[2] = -10.03 * y[2] + 0.43 * y[3] + 0.035 * y[4];
  f[3] = 8.32 * y[1] + 1.71 * y[2] - 1.12 * y[3];
  f[4] = -1.745 * y[4] + 0.43 * y[5] + 0.43 * y[6];
  f[5] = -280 * y[5] * y[7] + 0.69 * y[3] + 1.71 * y[4] - 0.43 * y[5] + 0.69 * y[6];
  f[6] = 280 * y[5] * y[7] - 1.81 * y[6];
  f[7] = -f[6];
}
void brusselator(int *n, double *t, double *y, double *f, double *o, int *i) {
  f[0] = 1 + y[0] * y[0] * y[1] - 4 * y[0]; f[1] = 3 * y[0] - y[0] * y[0] * y[1];
}
void lotka(int *n, double *t, double *y, double *f, double *o, int *i) {
  f[0] = 2.0 / 3 * y[0] - 4.0 / 3 * y[0] * y[1]; f[1] = y[0] * y[1] - y[1];
}
void tanks(int *n, double *t, double *y, double *f, double *o, int *k) {
  double in = 0.001;
  for (int i = 0; i < 5; i++) {
    double h = y[i] - 0.5, out = h > 0 ? 0.29 * h * sqrt(h) : 0;
    f[i] = (in - out) / (0.2 + 0.2 * i); in = out;
  }
  f[5] = (in - 0.001) / 0.8;
}
