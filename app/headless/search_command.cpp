#include "app/headless/command.h"
#include "app/headless/json_out.h"
#include "app/headless/text_out.h"
#include "core/history/revision_label.h"
#include "core/history/search_words.h"
#include "core/store/workbook.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <ostream>

namespace stillroom::headless {

namespace {

using nlohmann::ordered_json;
using store::SearchField;

constexpr int kMostHits = 1000;
constexpr int kReadAtOnce = 100; // drinks

const char* fieldId(SearchField field) {
    switch (field) {
    case SearchField::Name:
        return "name";
    case SearchField::Tags:
        return "tags";
    case SearchField::Lines:
        return "lines";
    case SearchField::Brief:
        return "brief";
    case SearchField::Notes:
        return "notes";
    case SearchField::Reason:
        return "reason";
    case SearchField::Tasting:
        return "tasting";
    case SearchField::None:
        break;
    }
    return "none";
}

int revisionNumber(const store::Workbook& book, const store::SearchHit& hit) {
    if (!hit.revision) return 0;
    const auto revision = book.revision(*hit.revision);
    return revision ? revision->number : 0;
}

ordered_json answerJson(const store::Workbook& book, const store::SearchAnswer& answer) {
    ordered_json json;
    json["total"] = answer.total;
    json["unread"] = answer.unread;
    json["words"] = ordered_json::array();
    for (const auto& word : answer.words)
        json["words"].push_back({{"typed", word.typed}, {"read_as", word.read}});
    json["drinks"] = ordered_json::array();
    for (const auto& hit : answer.hits) {
        const int number = revisionNumber(book, hit);
        ordered_json marks = ordered_json::array();
        for (const auto& [start, length] : hit.marks)
            marks.push_back(hit.snippet.substr(start, length));
        json["drinks"].push_back(
            {{"name", hit.name},
             {"form", hit.form == history::DrinkForm::Preparation ? "preparation" : "drink"},
             {"field", fieldId(hit.field)},
             {"revision", number > 0 ? ordered_json(number) : ordered_json(nullptr)},
             {"text", hit.snippet},
             {"found", std::move(marks)}});
    }
    return json;
}

// The words found stand between brackets.
std::string marked(const store::SearchHit& hit) {
    std::string text;
    std::size_t at = 0;
    for (const auto& [start, length] : hit.marks) {
        text += hit.snippet.substr(at, start - at);
        text += '[';
        text += hit.snippet.substr(start, length);
        text += ']';
        at = start + length;
    }
    return text + hit.snippet.substr(at);
}

void writeAnswer(std::ostream& out, const store::Workbook& book, const store::SearchAnswer& answer) {
    for (const auto& word : answer.words) {
        if (word.read.empty()) continue;
        std::string read;
        for (const auto& each : word.read)
            read += (read.empty() ? "" : " or ") + each;
        writeParagraph(out, clean(fmt::format("\"{}\" is not in the book; looked for {}.", word.typed, read)),
                       0);
    }
    for (const auto& hit : answer.hits) {
        out << clean(hit.name.empty() ? "(no name yet)" : hit.name) << "\n";
        if (hit.field == SearchField::Name) continue;
        const int number = revisionNumber(book, hit);
        std::string where = fieldId(hit.field);
        if (number > 0) where += fmt::format(" of {}", history::shortLabel(hit.form, number));
        writeParagraph(out, clean(where + ": " + marked(hit)), 2);
    }
    if (answer.hits.empty() && answer.words.empty())
        out << "There is no word to look for: marks, signs and pictures are not searched.\n";
    else if (answer.hits.empty())
        out << "No drink has all of these words.\n";
    if (answer.unread > 0)
        out << fmt::format(
            "{} changed after the book was last searched, and are found by what they said before. "
            "Opening the book in the window reads them.\n",
            answer.unread == 1 ? "1 drink" : fmt::format("{} drinks", answer.unread));
}

} // namespace

int runSearch(const Options& options, Streams& streams) {
    const base::SystemClock clock;
    const auto book = store::Workbook::open(options.plain.front(), store::OpenMode::ReadOnly, clock);
    store::SearchRequest request;
    for (std::size_t i = 1; i < options.plain.size(); ++i) {
        if (i > 1) request.words += ' ';
        request.words += options.plain[i];
    }
    while (book->catchUpSearch(kReadAtOnce) > 0)
        continue;
    // Nothing typed lists every drink in the window; here it is a slip.
    const auto answer =
        history::hasWords(request.words) ? book->search(request, kMostHits) : store::SearchAnswer{};
    if (options.has("--json"))
        writeJson(streams.out, answerJson(*book, answer));
    else
        writeAnswer(streams.out, *book, answer);
    return answer.hits.empty() ? kProblem : kDone;
}

} // namespace stillroom::headless
