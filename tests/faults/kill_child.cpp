// Edits a workbook without end and tells its standard output, after each call has returned, what is now
// promised to be kept. Started and killed by kill_test.cpp.
#include "tests/core/store/store_support.h"

#include <unistd.h>

#include <cstdlib>
#include <iostream>
#include <random>

using namespace stillroom;
using namespace stillroom::test;

namespace {

// One write call: a line is told whole or not at all.
void tell(const std::string& line) {
    const std::string text = line + "\n";
    if (write(STDOUT_FILENO, text.data(), text.size()) != static_cast<ssize_t>(text.size())) std::_Exit(3);
}

int juiceOf(const spec::Spec& spec) {
    return static_cast<int>(spec.lines.at(1).poured.amount.low.numerator());
}

} // namespace

int main(int argc, char* argv[]) {
    if (argc != 3) return 2;
    const base::SystemClock clock;
    std::mt19937 random(static_cast<unsigned>(std::strtoul(argv[2], nullptr, 10)));
    try {
        const auto book = store::Workbook::open(argv[1], store::OpenMode::ReadWrite, clock);
        const auto drink = book->summaries().at(0).id;
        const auto draft = book->drafts(drink).at(0);
        const auto taster = book->people().at(0).id;
        auto revision = book->revisions(drink).back();
        int juice = juiceOf(draft.spec);
        for (;;) {
            book->saveDraft(draft.id, sour(++juice));
            tell("draft " + std::to_string(juice));
            switch (random() % 40) {
            case 0:
                if (const auto kept = book->keep(draft.id, "at " + std::to_string(juice))) {
                    revision = *kept;
                    tell("revision " + revision.id.text() + " " + revision.hash);
                }
                break;
            case 1: {
                tasting::Tasting tasting;
                tasting.revision = revision.id;
                tasting.taster = taster;
                tasting.note = std::string(random() % 6000, 'n');
                tell("tasting " + book->addTasting(tasting).id.text() + " " + revision.id.text());
                break;
            }
            case 2: {
                const auto gin = bottleOf("gin " + std::to_string(juice), 40 + juice % 10);
                book->saveIngredient(gin);
                tell("bottle " + gin.id.text() + " " + gin.facts.hash());
                break;
            }
            case 3:
                book->flush();
                break;
            default:
                break;
            }
        }
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
}
