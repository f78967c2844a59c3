#pragma once

#include <tl/expected.hpp>

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::headless {

// What a command takes. Options are long and spelt in full: "--json", "--larder FILE", "--larder=FILE".
struct OptionRules {
    std::vector<std::string_view> flags;
    std::vector<std::string_view> valued;
    std::size_t fewestPlain = 0;
    std::size_t mostPlain = 0;
};

struct Options {
    std::vector<std::string> plain; // in order; "-" is one of these, and all that follows "--"
    std::map<std::string, std::string, std::less<>> values;
    bool has(std::string_view option) const { return values.find(option) != values.end(); }
    std::string value(std::string_view option) const; // empty when not given
};

// The error is one line for the person who typed it.
tl::expected<Options, std::string> readOptions(const std::vector<std::string>& arguments,
                                               const OptionRules& rules);

} // namespace stillroom::headless
