1; % The two kernels in Octave: heat a year at a time, water a day at a time over all fields.
function answer = heat(base, year, dx, dn)
  years = unique(year); sums = zeros(numel(years), numel(dx));
  for k = 1:numel(years)
    w = year == years(k);
    tx = base(w, 3) + dx; tn = min(base(w, 4) + dn, tx); mean = (tx + tn) / 2; half = (tx - tn) / 2;
    q = asin(max(-1, min(1, (48 - mean) ./ max(half, eps))));
    v = ((mean - 48) .* (pi / 2 - q) + half .* cos(q)) / pi;
    warm = tn >= 48; v(warm) = mean(warm) - 48; v(tx <= 48) = 0;
    sums(k, :) = sum(v, 1);
  end
  answer = [sum(sums(:)), sums(years == 2012, 8)];
end
function answer = water(base, doy, dx, dn, wetter, holds)
  near = 1 + 0.033 * cos(2 * pi * doy / 365); decl = 0.409 * sin(2 * pi * doy / 365 - 1.39);
  lat = 42.955 * pi / 180; sets = acos(-tan(lat) * tan(decl));
  above = 0.408 * 24 * 60 / pi * 0.082 * near .* (sets * sin(lat) .* sin(decl) + cos(lat) * cos(decl) .* sin(sets));
  left = holds; scarce = 0.45 * holds; grown = zeros(size(holds)); drained = grown; used = grown; stress = grown; cuts = 0;
  for t = 1:numel(doy)
    if (doy(t) == 1) grown = zeros(size(holds)); end
    tx = base(t, 5) + dx; tn = min(base(t, 6) + dn, tx); mean = (tx + tn) / 2;
    et0 = max(0, 0.0023 * (mean + 17.8) .* sqrt(tx - tn) * above(t));
    grown = grown + max(0, mean - 5);
    ks = min(1, left ./ scarce);
    et = min((0.4 + 0.75 * min(1, grown / 300)) .* ks .* et0, left);
    left = left - et + base(t, 7) * wetter;
    over = max(0, left - holds); drained = drained + over; left = left - over;
    cut = grown >= 550; cuts = cuts + sum(cut); grown(cut) = 0;
    used = used + et; stress = stress + 1 - ks;
  end
  answer = [sum(used), sum(drained), cuts, sum(stress)];
end
function report(name, kernel)
  best = Inf;
  for k = 1:3
    began = tic; answer = kernel(); best = min(best, toc(began));
  end
  printf('%s\tOctave %s, vectors\t%.6f%s\n', name, version(), best, sprintf('\t%.11f', answer));
end
base = dlmread('base.csv', ',', 1, 0); year = base(:, 1); doy = base(:, 2); i = 0:999;
dx = 0.01 * (mod(37 * i, 101) - 50); dn = 0.01 * (mod(53 * i, 97) - 48);
wetter = 0.8 + 0.4 * mod(53 * i, 97) / 96; holds = 100 + mod(29 * i, 151);
report('A', @() heat(base, year, dx, dn));
report('B', @() water(base, doy, dx, dn, wetter, holds));
