# The two kernels in R: over vectors, and as the loop that R compiles to byte code.
fields <- 1000L
base <- as.matrix(read.csv("base.csv"))
year <- base[, 1]; doy <- base[, 2]
i <- 0:(fields - 1)
dx <- 0.01 * ((37 * i) %% 101 - 50); dn <- 0.01 * ((53 * i) %% 97 - 48)
wetter <- 0.8 + 0.4 * ((53 * i) %% 97) / 96; holds <- 100 + ((29 * i) %% 151)

sky <- function(day) {
  near <- 1 + 0.033 * cos(2 * pi * day / 365); decl <- 0.409 * sin(2 * pi * day / 365 - 1.39)
  lat <- 42.955 * pi / 180; sets <- acos(-tan(lat) * tan(decl))
  0.408 * 24 * 60 / pi * 0.082 * near * (sets * sin(lat) * sin(decl) + cos(lat) * cos(decl) * sin(sets))
}
above <- sky(doy)

heat_vectors <- function() {
  total <- 0; kept <- NA
  for (y in unique(year)) {
    w <- year == y
    tx <- outer(base[w, 3], dx, "+"); tn <- outer(base[w, 4], dn, "+")
    j <- tn > tx; tn[j] <- tx[j]
    mean <- (tx + tn) / 2; v <- mean - 48
    z <- which(tn < 48); hot <- tx[z]
    v[z[hot <= 48]] <- 0
    z <- z[hot > 48]; m <- mean[z]; half <- (tx[z] - tn[z]) / 2; q <- asin((48 - m) / half)
    v[z] <- ((m - 48) * (pi / 2 - q) + half * cos(q)) / pi
    sums <- colSums(v); total <- total + sum(sums)
    if (y == 2012) kept <- sums[8]
  }
  c(total, kept)
}

water_vectors <- function() {
  left <- holds; scarce <- 0.45 * holds
  grown <- numeric(fields); drained <- grown; used <- grown; stress <- grown; cuts <- 0
  for (t in seq_along(year)) {
    if (doy[t] == 1) grown <- numeric(fields)
    tx <- base[t, 5] + dx; tn <- pmin.int(base[t, 6] + dn, tx); mean <- (tx + tn) / 2
    et0 <- pmax.int(0, 0.0023 * (mean + 17.8) * sqrt(tx - tn) * above[t])
    grown <- grown + pmax.int(0, mean - 5)
    ks <- pmin.int(1, left / scarce)
    et <- pmin.int((0.4 + 0.75 * pmin.int(1, grown / 300)) * ks * et0, left)
    left <- left - et + base[t, 7] * wetter
    over <- pmax.int(0, left - holds); drained <- drained + over; left <- left - over
    cut <- grown >= 550; cuts <- cuts + sum(cut); grown[cut] <- 0
    used <- used + et; stress <- stress + 1 - ks
  }
  c(sum(used), sum(drained), cuts, sum(stress))
}

heat_loop <- function() {
  total <- 0; kept <- 0; max_f <- base[, 3]; min_f <- base[, 4]
  for (f in 1:fields) {
    x <- dx[f]; n <- dn[f]
    for (t in seq_along(max_f)) {
      tx <- max_f[t] + x; tn <- min_f[t] + n; v <- 0
      if (tn > tx) tn <- tx
      if (tn >= 48) v <- (tx + tn) / 2 - 48
      else if (tx > 48) {
        m <- (tx + tn) / 2; half <- (tx - tn) / 2; q <- asin((48 - m) / half)
        v <- ((m - 48) * (pi / 2 - q) + half * cos(q)) / pi
      }
      total <- total + v
      if (f == 8 && year[t] == 2012) kept <- kept + v
    }
  }
  c(total, kept)
}

water_loop <- function() {
  used <- 0; drained <- 0; stress <- 0; cuts <- 0
  max_c <- base[, 5]; min_c <- base[, 6]; rain <- base[, 7]
  for (f in 1:fields) {
    left <- holds[f]; full <- left; scarce <- 0.45 * left; grown <- 0; x <- dx[f]; n <- dn[f]; r <- wetter[f]
    for (t in seq_along(max_c)) {
      if (doy[t] == 1) grown <- 0
      tx <- max_c[t] + x; tn <- min_c[t] + n
      if (tn > tx) tn <- tx
      mean <- (tx + tn) / 2; et0 <- 0.0023 * (mean + 17.8) * sqrt(tx - tn) * above[t]
      if (et0 < 0) et0 <- 0
      if (mean > 5) grown <- grown + (mean - 5)
      ks <- if (left >= scarce) 1 else left / scarce
      et <- (0.4 + 0.75 * (if (grown < 300) grown / 300 else 1)) * ks * et0
      if (et > left) et <- left
      left <- left + rain[t] * r - et
      if (left > full) { drained <- drained + left - full; left <- full }
      if (grown >= 550) { cuts <- cuts + 1; grown <- 0 }
      used <- used + et; stress <- stress + 1 - ks
    }
  }
  c(used, drained, cuts, stress)
}

report <- function(name, how, kernel, runs) {
  best <- Inf
  for (k in 1:runs) {
    gc(FALSE)
    start <- proc.time()[[3]]; answer <- kernel()
    best <- min(best, proc.time()[[3]] - start)
  }
  cat(sprintf("%s\tR %s, %s\t%.6f\t%s\n", name, getRversion(), how, best, paste(sprintf("%.11f", answer), collapse = "\t")))
}
report("A", "vectors", heat_vectors, 3); report("A", "loop", heat_loop, 2)
report("B", "vectors", water_vectors, 3); report("B", "loop", water_loop, 2)
