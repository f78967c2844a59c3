#pragma once

#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace stillroom::reference {

// A published table of tests/reference/data/<file>.json, by its id. Each carries its source.
const nlohmann::json& dataset(std::string_view file, std::string_view id);
const nlohmann::json& document(std::string_view file);

// Published data that stand in tests/reference/data and are compared with nothing, by "file/id", each with
// the reason.
const std::map<std::string, const char*>& notCompared();

// One comparison of the program with one published table: how far its worst point is off, against the
// bound that the table's own rounding and the spread between sources allow. Every comparison is kept, and
// with STILLROOM_REFERENCE_REPORT set in the environment the whole list is printed at the end of the run.
class Comparison {
  public:
    Comparison(std::string_view file, std::string_view id, std::string quantity, double bound);
    ~Comparison();
    Comparison(const Comparison&) = delete;
    Comparison& operator=(const Comparison&) = delete;

    void add(double computed, double published, std::string where = {});
    // Fails the running test when nothing was compared or the worst point is beyond the bound.
    void check() const;

  private:
    std::string m_file;
    std::string m_id;
    std::string m_quantity;
    double m_bound;
    std::size_t m_points = 0;
    double m_largest = 0;
    std::string m_worst;
};

} // namespace stillroom::reference
