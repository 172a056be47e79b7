// The three timed problems: case text for ferrule, options for the peer, the answer.
#pragma once

#include <string>
#include <vector>

struct TimedProblem
{
  std::string name;
  double rod_length = 0; ///< [mm], diameter 10
  double permeability = 1;
  double coil_length = 0; ///< [mm], 100 turns between diameters 12 and 14
  double inductance = 0;  ///< [H], what the peer is told.
};

std::vector<TimedProblem> timed_problems();

/// @brief The problem as a case file.
std::string case_text(const TimedProblem& problem);

/// @brief One way to set up the peer.
struct PeerSetting
{
  std::string name;
  std::vector<std::string> options;
};

/// @brief Orders 2 and 4 with the start that was fastest at this accuracy over the three problems,
///        and order 4 as ferrule works: whole half-plane, no splits towards the edge beforehand.
std::vector<PeerSetting> peer_settings(double accuracy);

/// @brief The peer's options for this problem, to be stopped at this accuracy.
std::vector<std::string> peer_options(const TimedProblem& problem, double accuracy);
