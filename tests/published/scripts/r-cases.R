# Makes ../r-cases.json. Run in this folder, with Debian's r-cran-shapes, r-cran-segmented and r-cran-jsonlite:
#   Rscript r-cases.R
suppressWarnings(suppressMessages({
  library(shapes)
  library(segmented)
  library(jsonlite)
}))

# shapes: landmarks on macaque skulls (Dryden & Mardia), female 1 .. 3 onto male 1 .. 3, rotation and shift only.
females <- macf.dat
males <- macm.dat
alignment <- lapply(1:3, function(i) {
  fit <- procOPA(males[, , i], females[, , i], scale = FALSE, reflect = FALSE)
  list(
    from = females[, , i], to = males[, , i],
    # procOPA centres both and turns rows: Bhat = centred(B) R
    rotation = t(fit$R), moved = fit$Bhat, target = fit$Ahat,
    sumOfSquares = sum((fit$Ahat - fit$Bhat)^2),
    # the same with scaling: the similarity's factor
    scale = procOPA(males[, , i], females[, , i], scale = TRUE, reflect = FALSE)$s
  )
})

# segmented: band height over log flow in the stagnant surface layer of a pond (its help page).
data(stagnant)
fit <- segmented(lm(y ~ x, data = stagnant), seg.Z = ~x, psi = 0, control = seg.control(tol = 1e-12, it.max = 200))
# The same by a search that owes nothing to the package: the least residual sum of squares over all breaks.
rss <- function(h) sum(resid(lm(stagnant$y ~ stagnant$x + pmax(0, stagnant$x - h)))^2)
exact <- optimize(rss, c(-0.5, 0.5), tol = 1e-12)

# Longley's data (datasets package) and quantiles.
model <- lm(Employed ~ ., data = longley)
chi <- expand.grid(p = c(0.05, 0.5, 0.9, 0.95, 0.975, 0.99, 0.999), dof = c(1, 2, 3, 4.5, 6, 10, 30, 100, 500))

write_json(list(
  madeBy = "r-cases.R", R = R.version.string,
  versions = list(shapes = as.character(packageVersion("shapes")), segmented = as.character(packageVersion("segmented"))),
  macaques = alignment,
  stagnant = list(
    x = stagnant$x, y = stagnant$y,
    breakAt = fit$psi[1, "Est."], breakStandardError = fit$psi[1, "St.Err"],
    coefficients = unname(coef(fit)[1:3]), residualSumOfSquares = sum(resid(fit)^2),
    leastResidualSumOfSquares = exact$objective, leastAt = exact$minimum
  ),
  chiSquareQuantiles = data.frame(chi, value = qchisq(chi$p, chi$dof)),
  normal = data.frame(z = seq(-6, 6, 0.5), value = pnorm(seq(-6, 6, 0.5)))
), "../r-cases.json", digits = I(16), auto_unbox = TRUE, matrix = "rowmajor", pretty = FALSE)
