# Makes ../variance-cases.json. Run in this folder, with Debian's r-cran-lme4, r-cran-metafor and r-cran-jsonlite:
#   Rscript variance-cases.R
suppressWarnings(suppressMessages({
  library(lme4)
  library(metafor)
  library(jsonlite)
}))
tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-12, maxfun = 1e5), calc.derivs = FALSE)

# Data sets of lme4 (Bates et al. 2015): yields of dyestuff and strength of pastes (Davies & Goldsmith 1972), a made-up set whose
# estimate is 0 (Box & Tiao 1973), penicillin (Davies & Goldsmith 1972), reaction after sleep deprivation (Belenky et al. 2003).
case <- function(name, formula, data, labels, design, values) {
  fit <- lmer(formula, data, REML = TRUE, control = tight)
  parts <- as.data.frame(VarCorr(fit))
  list(
    name = name, values = values, design = design, labels = unname(c(labels, list(seq_along(values)))),
    variances = parts$vcov[match(c(names(labels), NA), ifelse(parts$grp == "Residual", NA, parts$grp))],
    remlCriterion = as.numeric(REMLcrit(fit)), fixed = ncol(design)
  )
}
ones <- function(data) matrix(1, nrow(data), 1)
linear <- list(
  case("Dyestuff", Yield ~ 1 + (1 | Batch), Dyestuff, list(Batch = as.integer(Dyestuff$Batch)), ones(Dyestuff), Dyestuff$Yield),
  case("Dyestuff2", Yield ~ 1 + (1 | Batch), Dyestuff2, list(Batch = as.integer(Dyestuff2$Batch)), ones(Dyestuff2), Dyestuff2$Yield),
  case("Pastes", strength ~ 1 + (1 | batch) + (1 | sample), Pastes,
    list(batch = as.integer(Pastes$batch), sample = as.integer(Pastes$sample)), ones(Pastes), Pastes$strength),
  case("Penicillin", diameter ~ 1 + (1 | plate) + (1 | sample), Penicillin,
    list(plate = as.integer(Penicillin$plate), sample = as.integer(Penicillin$sample)), ones(Penicillin), Penicillin$diameter),
  case("sleepstudy", Reaction ~ Days + (1 | Subject), sleepstudy,
    list(Subject = as.integer(sleepstudy$Subject)), cbind(1, sleepstudy$Days), sleepstudy$Reaction)
)

# Random effects by Paule & Mandel with the interval of Hartung & Knapp: trials of BCG vaccine (Colditz et al. 1994), and subsets of them.
trials <- escalc(measure = "RR", ai = tpos, bi = tneg, ci = cpos, di = cneg, data = dat.bcg)
mean.of <- function(rows) {
  y <- as.numeric(trials$yi)[rows]
  v <- as.numeric(trials$vi)[rows]
  fit <- rma(y, v, method = "PM", test = "knha", control = list(tol = 1e-14, maxiter = 10000))
  list(estimates = y, variances = v, between = fit$tau2, mean = as.numeric(fit$b), low = fit$ci.lb, high = fit$ci.ub)
}
means <- lapply(list(1:13, 1:5, c(2, 6, 7, 9, 12), c(1, 3, 5, 7, 9, 11)), mean.of)
few <- lapply(list(1:2, 1:3, c(2, 8, 10, 4)), function(rows) mean.of(rows)[c("estimates", "variances", "between", "mean")])

write_json(list(
  madeBy = "variance-cases.R", R = R.version.string,
  versions = list(lme4 = as.character(packageVersion("lme4")), metafor = as.character(packageVersion("metafor"))),
  linear = linear, means = means, few = few
), "../variance-cases.json", digits = I(16), auto_unbox = TRUE, matrix = "rowmajor", pretty = FALSE)
