// Impedances put in series between a source and a load.
#include "post/insertion.hpp"

#include "post/csv_cell.hpp"

#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace post
{

double insertion_loss(std::complex<double> impedance, double line)
{
  return 20.0 * std::log10(std::abs(1.0 + impedance / (2.0 * line)));
}

std::vector<Insertion> insertions(const Result& result)
{
  std::vector<Insertion> list;
  for (const FrequencyResult& at : result.frequencies)
  {
    const double omega = 2.0 * std::numbers::pi * at.frequency;
    const auto add = [&](const char* kind, const std::string& name, std::complex<double> Z,
                         double disc) {
      list.push_back({kind, name, at.frequency, Z, disc, insertion_loss(Z, result.line)});
    };
    for (const WindingImpedance& one : at.windings)
      add("winding", one.name, {one.resistance, omega * one.inductance}, one.disc);
    for (const WireResult& one : at.wires)
      if (one.length)
        add("wire", one.name, *one.length * std::complex(one.resistance, omega * one.inductance),
            0.0);
    for (const ToroidResult& one : at.toroids)
      add("toroid", one.name, {one.resistance, omega * one.inductance}, one.disc);
  }
  return list;
}

std::string insertion_table(std::span<const Insertion> all, double line)
{
  std::string head = "frequency [Hz]", rows;
  bool first = true; // the first frequency names the parts
  for (std::size_t i = 0; i < all.size(); ++i)
  {
    const bool starts = i == 0 || all[i].frequency != all[i - 1].frequency;
    first = first && (i == 0 || !starts);
    if (first)
      head += "," + csv_cell(fmt::format("|Z| {} [ohm]", all[i].name)) + "," +
              csv_cell(fmt::format("insertion loss {} in {:.9g} ohm [dB]", all[i].name, line));
    rows += (starts ? fmt::format("\n{:.9g}", all[i].frequency) : std::string()) +
            fmt::format(",{:.9g},{:.9g}", std::abs(all[i].impedance), all[i].loss);
  }
  return head + rows + "\n";
}

std::string json(std::span<const Insertion> all)
{
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (const Insertion& one : all)
    list.push_back(
        {{"kind", one.kind},
         {"name", one.name},
         {"frequency_Hz", one.frequency},
         {"impedance_ohm", {{"real", one.impedance.real()}, {"imaginary", one.impedance.imag()}}},
         {"disc_ohm", one.disc},
         {"insertion_loss_dB", one.loss}});
  return list.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
}

} // namespace post
