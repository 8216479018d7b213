#pragma once
/// @file
/// Moisture of wood in an air, by another fit than the library's.
///
/// Two-hydrate equation of Hailwood and Horrobin as the Wood Handbook (FPL-GTR-190, ch. 4) fits it for degrees Fahrenheit,
/// coefficients from memory; the library takes the fit for degrees Celsius. Both are within 0.02 % of moisture of each
/// other where instruments live.

namespace wholes {

/// Moisture in per cent of the dry mass; humidity in per cent.
[[nodiscard]] inline double plain_moisture(double celsius, double humidity) {
    const double t = 32 + 1.8 * celsius, h = humidity / 100;
    const double w = 330 + 0.452 * t + 0.00415 * t * t;
    const double k = 0.791 + 0.000463 * t - 0.000000844 * t * t;
    const double k1 = 6.34 + 0.000775 * t - 0.0000935 * t * t;
    const double k2 = 1.09 + 0.0284 * t - 0.0000904 * t * t;
    const double a = k * h, b = k1 * a, c = k1 * k2 * a * a;
    return 1800 / w * (a / (1 - a) + (b + 2 * c) / (1 + b + c));
}

} // namespace wholes
