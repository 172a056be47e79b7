// What the peer is asked: one rod, one coil, how fine, when to stop.
#pragma once

/// @brief What the command line says, as `--name value`; lengths in metres.
struct Task
{
  double rod_diameter = 10e-3, rod_length = 100e-3, permeability = 700;
  double coil_inner = 12e-3, coil_outer = 14e-3, coil_length = 100e-3, turns = 100;
  double reference = 0, tolerance = 0; ///< Stops at |L / reference - 1| <= tolerance [H, -].
  double wall = 100;                   ///< Distance of the far wall in rod lengths.
  double finest = 0.5, growth = 1.5;   ///< First coarse step in winding gaps, and its growth.
  double grading = 8;                  ///< Splits towards the rod's edge before step one.
  double share = 0.6;                  ///< Of the estimated error that one step refines.
  double order = 4, steps = 20;
  double half = 1; ///< 1: upper half only, by symmetry; 0: the whole half-plane.
};

/// @throws std::invalid_argument naming the option that is unknown or lacks its value.
Task task(int argc, char** argv);
