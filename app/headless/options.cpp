#include "app/headless/options.h"

#include <algorithm>

namespace stillroom::headless {

namespace {

bool contains(const std::vector<std::string_view>& list, std::string_view word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

} // namespace

std::string Options::value(std::string_view option) const {
    const auto found = values.find(option);
    return found == values.end() ? std::string{} : found->second;
}

tl::expected<Options, std::string> readOptions(const std::vector<std::string>& arguments,
                                               const OptionRules& rules) {
    using Failure = tl::unexpected<std::string>;
    Options options;
    bool onlyPlain = false;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        const std::string& word = arguments[i];
        if (onlyPlain || word == "-" || word.empty() || word.front() != '-') {
            options.plain.push_back(word);
            continue;
        }
        if (word == "--") {
            onlyPlain = true;
            continue;
        }
        const std::size_t equals = word.find('=');
        const std::string name = word.substr(0, equals);
        if (options.has(name)) return Failure(name + " is given twice");
        if (contains(rules.flags, name)) {
            if (equals != std::string::npos) return Failure(name + " takes no value");
            options.values[name] = "";
        } else if (contains(rules.valued, name)) {
            if (equals != std::string::npos)
                options.values[name] = word.substr(equals + 1);
            else if (i + 1 < arguments.size())
                options.values[name] = arguments[++i];
            else
                return Failure(name + " needs a value");
        } else {
            return Failure("there is no option " + name);
        }
    }
    if (options.plain.size() < rules.fewestPlain) return Failure("something is missing");
    if (options.plain.size() > rules.mostPlain)
        return Failure("\"" + options.plain[rules.mostPlain] + "\" is one word too many");
    return options;
}

} // namespace stillroom::headless
