// Bow of instrument necks by solid finite elements: CalculiX ccx 2.20 (Debian calculix-ccx 2.20-1), a general-purpose
// finite-element program, quadratic bricks (C3D20R), solver SPOOLES. All dimensions are invented; the elastic ratios of the
// orthotropic woods are stand-ins, which the beam does not need.
//
// x: 0 at the nut, the neck clamped at the joint, a stub of 45 mm before the nut, through which the taper runs on. Heights
// from the board's top on the centre line. Strings pull from (0, z_nut) toward (scale, z_bridge) through a rigid arm fixed
// to the stub's end face. w: displacement of the board's top centre line; relief: largest distance of w below the chord
// from fret 1 to the joint fret, negative where it is above. Millimetres, newtons, megapascals; longitudinal moduli.
#pragma once

#include <vector>

namespace fe {

struct solution {
    double nut_rise, relief, relief_at;
    std::vector<double> w_frets;
};
struct pull {
    double tension, z_nut, z_bridge;
};
struct neck_case {
    const char* title;
    double scale, joint, board_thickness, arc_radius; // arc radius 0: flat
    double half_width[2], depth[2];                   // at the nut, at the joint
    double board_modulus, back_modulus;
    std::vector<pull> strings;
    std::vector<double> frets;
    solution linear_fine, linear_coarse, large_coarse;
};

inline const neck_case prism{
    "isotropic uniform prism, string line parallel to the axis (closed form)",
    641.0,
    355.47,
    6.0,
    0.0,
    {23.0, 23.0},
    {16.0, 16.0},
    11000.0,
    11000.0,
    {{640.0, 3.0, 3.0}},
    {35.977, 69.934, 101.99, 132.24, 160.79, 187.74, 213.18, 237.2, 259.86, 281.25, 301.44, 320.5, 338.49, 355.47},
    {1.5886,
     0.32182,
     195.56,
     {1.2827, 1.024, 0.80654, 0.6251, 0.47505, 0.35233, 0.25334, 0.1749, 0.11423, 0.068873, 0.036663, 0.015694, 0.0042306,
      0.0}},
    {1.5887,
     0.32187,
     195.56,
     {1.2828, 1.024, 0.80656, 0.6251, 0.47505, 0.35232, 0.25332, 0.17488, 0.11421, 0.068852, 0.036646, 0.01568, 0.0042207,
      0.0}},
    {1.685,
     0.34118,
     196.12,
     {1.3629, 1.0893, 0.85865, 0.66576, 0.506, 0.37522, 0.26969, 0.18607, 0.12143, 0.073133, 0.038879, 0.016608, 0.0044539,
      0.0}}};

inline const neck_case taper{
    "tapered, isotropic",
    641.0,
    355.47,
    6.0,
    0.0,
    {21.5, 28.0},
    {15.0, 18.5},
    11000.0,
    11000.0,
    {{640.0, 1.7, 11.5}},
    {35.977, 69.934, 101.99, 132.24, 160.79, 187.74, 213.18, 237.2, 259.86, 281.25, 301.44, 320.5, 338.49, 355.47},
    {1.4628,
     0.30469,
     192.77,
     {1.1717, 0.9282, 0.7257, 0.55849, 0.4216, 0.31072, 0.2221, 0.1525, 0.099123, 0.05954, 0.031647, 0.013606, 0.0037576,
      0.0}},
    {1.4629,
     0.30474,
     192.77,
     {1.1718, 0.92827, 0.72575, 0.55852, 0.42162, 0.31072, 0.22209, 0.15249, 0.09911, 0.059527, 0.031635, 0.013596,
      0.0037495, 0.0}},
    {1.5285,
     0.31905,
     192.93,
     {1.2255, 0.97121, 0.75934, 0.58422, 0.4408, 0.32464, 0.23186, 0.15905, 0.10327, 0.061962, 0.03289, 0.014114, 0.0038814,
      0.0}}};

inline const neck_case arched_composite{
    "tapered, ebony board on maple, orthotropic, arched board, six unequal strings",
    641.0,
    355.47,
    6.0,
    310.0,
    {21.5, 28.0},
    {15.0, 18.5},
    17000.0,
    13860.0,
    {{98.0, 1.95, 12.6},
     {106.0, 1.9, 12.5},
     {124.0, 1.85, 12.2},
     {128.0, 1.75, 11.7},
     {112.0, 1.65, 11.0},
     {102.0, 1.55, 10.2}},
    {35.977, 69.934, 101.99, 132.24, 160.79, 187.74, 213.18, 237.2, 259.86, 281.25, 301.44, 320.5, 338.49, 355.47},
    {1.1668,
     0.24026,
     193.17,
     {0.93669, 0.7437, 0.58284, 0.4497, 0.34045, 0.25175, 0.18067, 0.12469, 0.081615, 0.049526, 0.026763, 0.011872,
      0.0035711, 0.0}},
    {1.167,
     0.2403,
     193.17,
     {0.93683, 0.74382, 0.58293, 0.44977, 0.3405, 0.25178, 0.1807, 0.12471, 0.081625, 0.049531, 0.026764, 0.011871,
      0.0035696, 0.0}},
    {1.209,
     0.24949,
     193.25,
     {0.97116, 0.77124, 0.60437, 0.46615, 0.35272, 0.26064, 0.18689, 0.12886, 0.084246, 0.051052, 0.027537, 0.012182,
      0.0036438, 0.0}}};

inline const neck_case channel_and_rod{
    "mahogany + ebony, rod channel 6 x 5 mm (void) under a 5 mm filler, single rod pulling 1200 N",
    627.0,
    347.7,
    6.0,
    310.0,
    {21.0, 27.0},
    {15.5, 18.5},
    17000.0,
    11330.0,
    {{98.0, 1.95, 12.6},
     {106.0, 1.9, 12.5},
     {124.0, 1.85, 12.2},
     {128.0, 1.75, 11.7},
     {112.0, 1.65, 11.0},
     {102.0, 1.55, 10.2}},
    {35.191, 68.407, 99.758, 129.35, 157.28, 183.64, 208.53, 232.01, 254.18, 275.11, 294.86, 313.5, 331.1, 347.7},
    {0.63455,
     0.11375,
     201.37,
     {0.52781, 0.43364, 0.35076, 0.27869, 0.21695, 0.16483, 0.12155, 0.086289, 0.05821, 0.036535, 0.020578, 0.0098707,
      0.003452, 0.0}},
    {0.63526,
     0.11381,
     201.37,
     {0.52837, 0.43414, 0.35118, 0.27905, 0.21724, 0.16507, 0.12175, 0.08644, 0.058325, 0.036617, 0.020626, 0.0098547,
      0.0033247, 0.0}},
    {0.67129,
     0.12244,
     200.51,
     {0.55759, 0.45718, 0.36887, 0.29225, 0.2268, 0.17175, 0.12622, 0.089272, 0.059992, 0.037499, 0.021021, 0.0099937,
      0.0033718, 0.0}}};

// The last case's rod: pull in newtons, height, from where to where; its channel: half width, depths under the board.
inline constexpr double rod_pull = 1200, rod_z = -13.5, rod_from = 10, rod_to = 332.7;
inline constexpr double channel_half_width = 3, channel_top = 5, channel_bottom = 10;
inline const solution strings_alone{1.2366,
                                    0.25247,
                                    189.73,
                                    {0.99527, 0.79209, 0.62216, 0.48107, 0.36495, 0.2704, 0.19444, 0.13447, 0.088202,
                                     0.053652, 0.029074, 0.01293, 0.0038546, 0.0}};
inline const solution rod_alone{-0.60203,
                                -0.13991,
                                180.04,
                                {-0.46746, -0.35845, -0.2714, -0.20238, -0.148, -0.10557, -0.072888, -0.048179, -0.029991,
                                 -0.017116, -0.0084964, -0.0030591, -0.00040256, 0.0}};

} // namespace fe
