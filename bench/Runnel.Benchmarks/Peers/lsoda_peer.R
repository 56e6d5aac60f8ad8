# lsoda from R on the problems of the solver benchmark, once with the rates written in R and once compiled.
# Arguments: problem, repeats, rtol, atol, shared object. Prints: seconds a run in R, seconds a run compiled, end state.
suppressMessages(library(deSolve))
a <- commandArgs(trailingOnly = TRUE); repeats <- as.integer(a[2]); rtol <- as.numeric(a[3]); atol <- as.numeric(a[4])
dyn.load(a[5])
weir <- function(h) if (h > 0) 0.29 * h * sqrt(h) else 0
p <- switch(a[1],
  robertson = list(c(1, 0, 0), 4e7, function(t, y, q) { fast <- 1e4 * y[2] * y[3]; slow <- 0.04 * y[1]; square <- 3e7 * y[2]^2; list(c(fast - slow, slow - fast - square, square)) }),
  vanderpol = list(c(2, 0), 2000, function(t, y, q) list(c(y[2], 1000 * (1 - y[1]^2) * y[2] - y[1]))),
  hires = list(c(1, 0, 0, 0, 0, 0, 0, 0.0057), 321.8122, function(t, y, q) {
    f7 <- 280 * y[6] * y[8] - 1.81 * y[7]
    list(c(-1.71 * y[1] + 0.43 * y[2] + 8.32 * y[3] + 0.0007, 1.71 * y[1] - 8.75 * y[2], -10.03 * y[3] + 0.43 * y[4] + 0.035 * y[5],
      8.32 * y[2] + 1.71 * y[3] - 1.12 * y[4], -1.745 * y[5] + 0.43 * y[6] + 0.43 * y[7],
      -280 * y[6] * y[8] + 0.69 * y[4] + 1.71 * y[5] - 0.43 * y[6] + 0.69 * y[7], f7, -f7)) }),
  brusselator = list(c(1.5, 3), 20, function(t, y, q) list(c(1 + y[1]^2 * y[2] - 4 * y[1], 3 * y[1] - y[1]^2 * y[2]))),
  lotka = list(c(1.8, 1.8), 30, function(t, y, q) list(c(2 / 3 * y[1] - 4 / 3 * y[1] * y[2], y[1] * y[2] - y[2]))),
  tanks = list(rep(0.5, 6), 3600, function(t, y, q) {
    f <- numeric(6); into <- 0.001
    for (i in 1:5) { out <- weir(y[i] - 0.5); f[i] <- (into - out) / (0.2 * i); into <- out }
    f[6] <- (into - 0.001) / 0.8; list(f) }))
run <- function(compiled) {
  if (compiled) lsoda(p[[1]], c(0, p[[2]]), a[1], NULL, rtol, atol, dllname = "lsoda_peer", initfunc = "nothing", maxsteps = 1e7)
  else lsoda(p[[1]], c(0, p[[2]]), p[[3]], NULL, rtol, atol, maxsteps = 1e7)
}
time <- function(compiled, n) { invisible(run(compiled)); s <- proc.time()[3]; for (i in 1:n) r <- run(compiled); list((proc.time()[3] - s) / n, r) }
inR <- time(FALSE, max(1, repeats %/% 10)); compiled <- time(TRUE, repeats)
cat(sprintf("%.9g %.9g", inR[[1]], compiled[[1]]), sprintf("%.17g", compiled[[2]][2, -1]), "\n")
