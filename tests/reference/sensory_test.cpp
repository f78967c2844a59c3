#include "core/tasting/statistics/binomial.h"
#include "core/tasting/statistics/choice_test.h"
#include "core/tasting/statistics/distributions.h"
#include "core/tasting/statistics/ranking.h"
#include "tests/reference/published.h"
#include "tests/support/catch.h"

#include <iterator>

using namespace stillroom;
using namespace stillroom::tasting;
using nlohmann::json;
using reference::Comparison;
using reference::dataset;

namespace {

constexpr double kAlphas[] = {0.10, 0.05, 0.01, 0.001};

// Never: one more than there are tasters, so that "cannot be shown" is compared like any other answer.
void compareCritical(ChoiceTest test, const std::string& id, const std::string& quantity) {
    Comparison counts("sensory", id, quantity, 0);
    for (const json& row : dataset("sensory", id)["rows"]) {
        const int tasters = row[0];
        for (std::size_t i = 0; i < std::size(kAlphas); ++i) {
            const json& published = row[i + 1];
            counts.add(countNeeded(test, tasters, kAlphas[i]).value_or(tasters + 1),
                       published.is_null() ? tasters + 1 : published.get<int>(), row.dump());
        }
    }
    counts.check();
}

const json& example(std::string_view start, std::size_t which = 0) {
    for (const json& each : dataset("sensory", "published_examples")["examples"])
        if (each["test"].get<std::string>().rfind(start, 0) == 0 && which-- == 0) return each;
    throw std::runtime_error("no example " + std::string(start));
}

int numberOf(const json& each, const char* key) {
    return each["input"][key].get<int>();
}

} // namespace

TEST_CASE("Every row of the panel tables comes out of the binomial", "[reference][sensory]") {
    compareCritical(ChoiceTest::Triangle, "triangle_critical", "right answers needed, triangle");
    compareCritical(ChoiceTest::DuoTrio, "duo_trio_critical", "right answers needed, duo-trio");
    compareCritical(ChoiceTest::PairedForetold, "duo_trio_critical", "answers needed, paired, one-sided");
    compareCritical(ChoiceTest::PairedEither, "paired_two_sided_critical",
                    "answers needed, paired, two-sided");
}

TEST_CASE("Similarity allows as many right answers as the table says", "[reference][sensory]") {
    Comparison counts("sensory", "similarity_triangle", "most right answers for similarity", 0);
    for (const json& row : dataset("sensory", "similarity_triangle")["rows"])
        counts.add(mostForSimilarity(ChoiceTest::Triangle, row[0], row[1], row[2]).value_or(-1), row[3],
                   row.dump());
    counts.check();
}

TEST_CASE("Panels are as large as the sample size table says", "[reference][sensory]") {
    Comparison first("sensory", "sample_size", "tasters needed, first", 0);
    Comparison steady("sensory", "sample_size", "tasters needed, from there on", 0);
    for (const json& row : dataset("sensory", "sample_size")["rows"]) {
        const auto test = row[0] == "triangle" ? ChoiceTest::Triangle : ChoiceTest::DuoTrio;
        const auto size = tastersNeeded(test, row[1], row[2], row[3]);
        REQUIRE(size);
        first.add(size->first, row[4], row.dump());
        steady.add(size->steady, row[5], row.dump());
    }
    first.check();
    steady.check();
}

TEST_CASE("What small panels can show agrees with the guide", "[reference][sensory]") {
    Comparison needed("sensory", "small_panel_guide", "answers needed by small panels", 0);
    // Two decimals, cut or rounded: the table does not say which.
    Comparison share("sensory", "small_panel_guide", "share found with 80 % power", 0.01);
    for (const json& row : dataset("sensory", "small_panel_guide")["rows"]) {
        const int tasters = row[0];
        needed.add(countNeeded(ChoiceTest::Triangle, tasters, 0.05).value_or(0), row[1], row.dump());
        needed.add(countNeeded(ChoiceTest::PairedEither, tasters, 0.05).value_or(0),
                   row[2].is_null() ? 0 : row[2].get<int>(), row.dump());
        share.add(shareFoundBy(ChoiceTest::Triangle, tasters, 0.05, 0.8).value_or(2), row[3], row.dump());
    }
    needed.check();
    share.check();
}

TEST_CASE("Chi-square and Student's t agree with printed tables", "[reference][sensory]") {
    Comparison chi("sensory", "chi_square_critical", "chi-square critical values", 5.1e-4);
    for (const json& row : dataset("sensory", "chi_square_critical")["rows"])
        for (std::size_t i = 0; i < std::size(kAlphas); ++i)
            chi.add(chiSquareCritical(kAlphas[i], row[0]), row[i + 1], row.dump());
    chi.check();
    Comparison t("sensory", "student_t_critical", "Student's t critical values", 5.1e-4);
    constexpr double kTails[] = {0.05, 0.025, 0.005};
    for (const json& row : dataset("sensory", "student_t_critical")["rows"])
        for (std::size_t i = 0; i < std::size(kTails); ++i)
            t.add(studentQuantile(1 - kTails[i], row[0].get<int>()), row[i + 1], row.dump());
    t.check();
}

TEST_CASE("Friedman's exact values for small panels are enumerated right", "[reference][sensory]") {
    Comparison exact("sensory", "friedman_exact_critical", "exact Friedman critical values", 5.1e-4);
    for (const json& row : dataset("sensory", "friedman_exact_critical")["rows"]) {
        for (const auto& [alpha, column] : {std::pair{0.05, 2}, std::pair{0.01, 3}}) {
            const auto critical = friedmanCritical(row[1], row[0], alpha);
            CHECK(critical.exact);
            const json& published = row[static_cast<std::size_t>(column)];
            exact.add(critical.statistic.value_or(-1), published.is_null() ? -1 : published.get<double>(),
                      row.dump());
        }
    }
    exact.check();
}

TEST_CASE("Page's test finds its published critical values", "[reference][sensory]") {
    Comparison found("sensory", "page_exact_critical", "smallest L that is shown", 0);
    // One assessor's order by how far its L lies below the highest; without ties the chance depends on L
    // only.
    const std::vector<Ranks> byLoss{{1, 2, 3, 4}, {2, 1, 3, 4}, {2, 1, 4, 3}, {3, 1, 2, 4}};
    for (const json& row : dataset("sensory", "page_exact_critical")["rows"]) {
        REQUIRE(row[0] == byLoss.front().size());
        const std::size_t assessors = row[1];
        double smallest = 0;
        for (std::size_t loss = 0; loss <= assessors * (byLoss.size() - 1); ++loss) {
            std::vector<Ranks> rows;
            for (std::size_t i = 0; i < assessors; ++i)
                rows.push_back(byLoss[(loss + i) / assessors]);
            const Page result = page(rows);
            CHECK(result.exact);
            if (result.chance > row[2].get<double>()) break;
            smallest = result.statistic;
        }
        found.add(smallest, row[3], row.dump());
    }
    found.check();
}

TEST_CASE("The published panel examples come out as printed", "[reference][sensory]") {
    CHECK(dataset("sensory", "published_examples")["examples"].size() == 9);
    Comparison counts("sensory", "published_examples", "critical counts of worked examples", 0);
    for (const std::size_t which : {0U, 1U}) {
        const json& each = example("triangle critical value", which);
        for (const auto& [alpha, count] : each["answer"].items())
            counts.add(countNeeded(ChoiceTest::Triangle, numberOf(each, "n"), std::stod(alpha)).value_or(0),
                       count.get<int>(), each.dump());
    }
    const json& of25 = example("triangle critical value, 25");
    counts.add(countNeeded(ChoiceTest::Triangle, 25, 0.05).value_or(0), of25["answer"], of25.dump());
    const json& of100 = example("one-sided chance 1/2");
    counts.add(countNeeded(ChoiceTest::DuoTrio, 100, 0.05).value_or(0), of100["answer"], of100.dump());
    const json& quinine = example("triangle, bitterness");
    counts.add(countNeeded(ChoiceTest::Triangle, 50, 0.05).value_or(0), quinine["answer"]["critical_5pct"],
               quinine.dump());
    counts.add(countNeeded(ChoiceTest::Triangle, 12, 0.05).value_or(0), 8, "12 assessors, critical value 8");
    counts.add(countNeeded(ChoiceTest::DuoTrio, 40, 0.05).value_or(0), 26, "40 subjects, critical value 26");
    counts.check();

    Comparison chance("sensory", "published_examples", "chance of worked examples", 5.1e-5);
    chance.add(chanceOfCount(ChoiceTest::Triangle, numberOf(quinine, "n"), numberOf(quinine, "correct")),
               quinine["answer"]["exact_p"], quinine.dump());
    chance.add(chanceOfCount(ChoiceTest::Triangle, 20, 11), 0.0376, "20 panelists, 11 correct");
    chance.check();
    CHECK(chanceOfCount(ChoiceTest::Triangle, 12, 8) <= 0.05);
    CHECK(chanceOfCount(ChoiceTest::DuoTrio, 40, 21) > 0.05);

    const json& ranking = example("Friedman ranking");
    const auto sums = ranking["input"]["rank_sums"].get<std::vector<double>>();
    const json& answer = ranking["answer"];
    Comparison friedmans("sensory", "published_examples", "Friedman's worked example", 0.05);
    friedmans.add(friedmanStatistic(8, sums), answer["F"], "F");
    friedmans.add(chiSquareCritical(0.05, 4), answer["critical_5pct"], "critical");
    friedmans.add(leastRankDifference(8, 5, 0.05), answer["least_significant_rank_difference_5pct"], "LSRD");
    friedmans.check();
}
