#include "app/headless/command.h"
#include "app/window/window.h"

#include <filesystem>
#include <iostream>
#include <string>
#include <vector>

namespace {

using namespace stillroom;

const headless::Command* named(const std::string& name) {
    for (const auto* table : {&headless::commands(), &app::drawingCommands()})
        for (const headless::Command& command : *table)
            if (command.name == name) return &command;
    return nullptr;
}

int wrongUsage(const std::string& what) {
    std::cerr << "stillroom: " << headless::clean(what) << ".\nWhat there is: stillroom --help\n";
    return headless::kWrongUsage;
}

} // namespace

// Commands run before anything of the window exists, so that they need no display.
int main(int argc, char** argv) {
    std::ios::sync_with_stdio(false);
    const std::vector<std::string> arguments(argv + 1, argv + argc);
    if (!arguments.empty()) {
        const std::string& first = arguments.front();
        if (first == "--help" || first == "-h" || first == "help") {
            std::cout << headless::overview(app::drawingCommands());
            return headless::kDone;
        }
        if (first == "--version") {
            std::cout << "Stillroom " STILLROOM_VERSION "\n";
            return headless::kDone;
        }
        if (const headless::Command* command = named(first)) {
            headless::Streams streams{std::cin, std::cout, std::cerr};
            return headless::runCommand(*command, {arguments.begin() + 1, arguments.end()}, streams);
        }
    }
    app::WindowRequest request;
    for (const std::string& word : arguments) {
        if (word == "--sample" && !request.sample) {
            request.sample = true;
        } else if (word.empty() || word.front() == '-') {
            return wrongUsage("there is no option " + word);
        } else if (!request.path.empty()) {
            return wrongUsage("one workbook at a time; \"" + word + "\" is one too many");
        } else {
            std::error_code ignored;
            if (!std::filesystem::exists(word, ignored))
                return wrongUsage("\"" + word + "\" is neither a command nor a workbook that stands here");
            request.path = word;
        }
    }
    if (request.sample && !request.path.empty()) return wrongUsage("either --sample or a workbook, not both");
    return app::openWindow(argc, argv, request);
}
