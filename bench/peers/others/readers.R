# Reads the two forms of GHCN-Daily with data.table, on one thread: values that are neither missing nor
# failed by the archive, counted and summed. No other check, nothing kept of the rest.
suppressMessages(library(data.table))
setDTthreads(1)
kept <- c("TMAX", "TMIN", "PRCP", "SNOW", "SNWD"); wanted <- c("TMAX", "TMIN", "PRCP")
sums <- function(element, value) unlist(lapply(wanted, function(e) { v <- value[element == e]; c(length(v), sum(v)) }))

dly <- function() {
  lines <- fread("station.dly", sep = "\n", header = FALSE, strip.white = FALSE)[[1]]
  element <- substr(lines, 18, 21)
  lines <- lines[element %in% kept]; element <- element[element %in% kept]
  at <- 22 + 8 * (0:30)
  value <- unlist(lapply(at, function(a) as.integer(substr(lines, a, a + 4))))
  failed <- unlist(lapply(at, function(a) substr(lines, a + 6, a + 6) != " "))
  good <- value != -9999L & !failed
  sums(rep(element, 31)[good], value[good])
}

days <- function() {
  t <- fread("station.csv", header = FALSE, colClasses = list(character = c(1, 3, 5, 6, 7, 8)))
  t <- t[V3 %chin% kept & V4 != -9999L & V6 == ""]
  sums(t$V3, t$V4)
}

report <- function(name, read, most) {
  best <- Inf
  for (k in 1:most) {
    gc(FALSE)
    start <- Sys.time(); answer <- read()
    best <- min(best, as.numeric(Sys.time()) - as.numeric(start))
  }
  cat(sprintf("%s\tdata.table %s, fread\t%.6f\t%s\n", name, packageVersion("data.table"), best, paste(answer, collapse = "\t")))
}
report("dly", dly, 5); report("csv", days, 10)
