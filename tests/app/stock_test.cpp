#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <algorithm>

// larder, reach and buy on the sample: its shelf of 24 November.

using namespace stillroom::tests;
using nlohmann::json;

namespace {

struct Sample {
    TemporaryFolder folder;
    std::string path = folder.path("sample.stillroom");
    Sample() { REQUIRE(runProgram({"new", path, "--sample"}).exitCode == 0); }
    json of(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin() + 1, path);
        arguments.push_back("--json");
        const ProgramRun run = runProgram(arguments);
        INFO(run.err);
        REQUIRE(run.exitCode == 0);
        return json::parse(run.out);
    }
    std::string refusal(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin() + 1, path);
        const std::string before = contentOf(path);
        const ProgramRun run = runProgram(arguments);
        CHECK(run.exitCode == 1);
        CHECK(run.out.empty());
        CHECK(contentOf(path) == before);
        return run.err;
    }
};

json named(const json& list, const std::string& name, const char* key = "name") {
    const auto found =
        std::find_if(list.begin(), list.end(), [&](const json& one) { return one[key] == name; });
    REQUIRE(found != list.end());
    return *found;
}

} // namespace

TEST_CASE("reach says what stands, what is one short and what a purchase brings", "[app]") {
    const Sample sample;
    const json reach = sample.of({"reach"});
    REQUIRE(reach["drinks"].size() == 9);
    CHECK(named(reach["drinks"], "Hallan Stack")["state"] == "within");
    CHECK(named(reach["drinks"], "Ox Skerry")["low"] == json::array({"London dry gin"}));
    const json quill = named(reach["drinks"], "Quill Point");
    CHECK(quill["state"] == "one_short");
    CHECK(quill["lacks"] == json::array({"overproof rum"}));
    CHECK(named(reach["drinks"], "Pellow Head")["state"] == "off");
    CHECK(named(reach["purchases"], "overproof rum", "ingredient")["brings"] == json::array({"Quill Point"}));
    CHECK(reach["off"][0]["drinks"] == json::array({"Pellow Head"}));
    CHECK(reach["circles"].empty());
    const ProgramRun text = runProgram({"reach", sample.path});
    CHECK(text.out.find("short of overproof rum") != std::string::npos);
}

TEST_CASE("buy lists whole packs by supplier less what stands on the shelf", "[app]") {
    const Sample sample;
    // 40 x 60 ml of apple brandy less 1,400 ml: 1,000 ml, two bottles at 28.70.
    const json list = sample.of({"buy", "grey tolland=40"});
    const json quayside = named(list["suppliers"], "Quayside Cellars", "supplier");
    const json brandy = named(quayside["items"], "Apple brandy, 42 %", "ingredient");
    CHECK(brandy["needed"]["amount"] == 2400.0);
    CHECK(brandy["on_shelf"] == 1400.0);
    CHECK(brandy["to_buy"] == 1000.0);
    CHECK(brandy["packs"] == 2);
    CHECK(brandy["price"] == "57.40");
    CHECK(list["to_make"][0]["ingredient"] == "Heather-honey syrup");
    const json whole = sample.of({"buy", "grey tolland=40", "--whole", "--margin", "0"});
    const json all = named(whole["suppliers"], "Quayside Cellars", "supplier");
    CHECK(named(all["items"], "Apple brandy, 42 %", "ingredient")["packs"] == 4);
    const json market = named(whole["suppliers"], "Harbour market", "supplier");
    CHECK(named(market["items"], "lemon, whole fruit", "ingredient")["to_buy"] == 20.0);
    CHECK(sample.refusal({"buy", "No Such Light=4"}).find("no drink called") != std::string::npos);
    for (const char* wish : {"Ox Skerry", "Ox Skerry=0", "Ox Skerry=-3", "Ox Skerry=1000000000"}) {
        INFO(wish);
        CHECK(sample.refusal({"buy", wish}).find("Ox Skerry") != std::string::npos);
    }
    CHECK(sample.refusal({"buy", "Ox Skerry=1", "--margin", "900"}).find("0 to 200") != std::string::npos);
    CHECK(runProgram({"buy", sample.path}).exitCode == 2);
}

TEST_CASE("larder shows one ingredient and what an edit would do without writing", "[app]") {
    const Sample sample;
    const json all = sample.of({"larder"});
    CHECK(named(all["ingredients"], "London dry gin, 47 %")["stock"]["state"] == "low");
    const json honey = sample.of({"larder", "--name", "heather honey"});
    CHECK(honey["facts"]["sugar_g_per_l"]["value"] == 1120.0);
    CHECK(honey["price"]["amount"].get<double>() == Approx(1.88));
    CHECK(honey["price"]["unit"] == "g");
    CHECK(named(honey["used_by"], "Ox Skerry")["through"] ==
          json::array({"Heather honey", "Heather-honey syrup"}));
    CHECK_FALSE(honey.contains("impact"));
    const std::string before = contentOf(sample.path);
    const json dearer = sample.of({"larder", "--name", "heather honey", "--price", "18.80/500 g"});
    const json ox = named(dearer["impact"]["drinks"], "Ox Skerry");
    // 20 of about 846 ml of syrup from 500 g of honey, at 9.40 more.
    CHECK(ox["cost"]["after"]["value"].get<double>() - ox["cost"]["before"]["value"].get<double>() ==
          Approx(20.0 / 846 * 9.40).epsilon(0.02));
    CHECK(dearer["impact"]["cost_after"].get<double>() == Approx(3.76));
    CHECK(named(dearer["impact"]["made"], "Heather-honey syrup")["cost_after"].is_number());
    const json weaker = sample.of({"larder", "--name", "London dry gin, 47 %", "--fact", "abv_percent=40"});
    const json now = named(weaker["impact"]["drinks"], "Ox Skerry")["strength"];
    CHECK(now["after"]["value"].get<double>() < now["before"]["value"].get<double>());
    CHECK(contentOf(sample.path) == before);
    const json syrup = sample.of({"larder", "--name", "ember syrup"});
    REQUIRE(syrup["lots"].size() == 1);
    CHECK(syrup["lots"][0]["use_by"] == "");
    CHECK(syrup["lots"][0]["last_day"] == "2026-11-24"); // worked out: three days by its puree
}

TEST_CASE("a new price shows the drafts beside the revisions with their menus", "[app]") {
    const Sample sample;
    const json dearer = sample.of({"larder", "--name", "heather honey", "--price", "18,80/500 g"});
    const json& drinks = dearer["impact"]["drinks"];
    const auto cost = [&](bool draft) {
        const auto found = std::find_if(drinks.begin(), drinks.end(), [&](const json& each) {
            return each["name"] == "Ox Skerry" && each["draft"].is_null() != draft;
        });
        REQUIRE(found != drinks.end());
        CHECK((*found)["menu"] == "Nine Lights");
        CHECK((*found)["form"] == "drink");
        return std::pair((*found)["cost"]["before"]["value"].get<double>(),
                         (*found)["cost"]["after"]["value"].get<double>());
    };
    // As much of the syrup in the draft saved last as in the house's revision.
    const auto [keptBefore, keptAfter] = cost(false);
    const auto [draftBefore, draftAfter] = cost(true);
    CHECK(keptAfter - keptBefore == Approx(20.0 / 846 * 9.40).epsilon(0.02));
    CHECK(draftAfter - draftBefore == Approx(20.0 / 846 * 9.40).epsilon(0.02));
    CHECK(draftBefore != keptBefore);
    CHECK(dearer["impact"]["cost_after"].get<double>() == Approx(3.76)); // the comma was decimal
    const ProgramRun text =
        runProgram({"larder", sample.path, "--name", "heather honey", "--price", "18,80/500 g"});
    CHECK(text.out.find("Ox Skerry, draft") != std::string::npos);
}

TEST_CASE("a share that is used is read in per cent too", "[app]") {
    const Sample sample;
    const json trimmed = sample.of({"larder", "--name", "heather honey", "--usable", "80%"});
    CHECK(trimmed["usable_share"] == "1");
    CHECK(trimmed["impact"]["cost_after"].get<double>() == Approx(1.88 / 0.8));
}

TEST_CASE("the larder is listed in words and in decimals that can be known", "[app]") {
    const Sample sample;
    const std::string all = runProgram({"larder", sample.path}).out;
    CHECK(all.find("not_said") == std::string::npos);
    CHECK(all.find("5.06 ") != std::string::npos);
    CHECK(all.find("5.061") == std::string::npos);
    const std::string one = runProgram({"larder", sample.path, "--name", "Hearth cream"}).out;
    CHECK(one.find("abv_percent") == std::string::npos);
    CHECK(one.find("5.06 % vol") != std::string::npos);
    CHECK(one.find("203.523") == std::string::npos);
}

TEST_CASE("figures that cannot share a litre are said so and not as nothing apart", "[app]") {
    const Sample sample;
    const std::string said =
        runProgram({"larder", sample.path, "--name", "Heather honey", "--fact", "sugar_g_per_l=1590"}).out;
    CHECK(said.find("0 kg/m³ apart") == std::string::npos);
    CHECK(said.find("sugar") != std::string::npos);
}

TEST_CASE("larder names what pours a preparation in a draft alone", "[app]") {
    const Sample sample;
    const json cream = sample.of({"larder", "--name", "Hearth cream"});
    REQUIRE(cream["used_by"].size() == 1);
    CHECK(cream["used_by"][0]["name"] == "Long Candle");
}

TEST_CASE("a price in a unit that pours cannot be turned into is raised and stands beside the impact",
          "[app]") {
    const Sample sample;
    // Weighed out, and nobody has stated what a litre of it weighs.
    const json byVolume = sample.of({"larder", "--name", "cinnamon stick", "--price", "20/100 ml"});
    REQUIRE(byVolume["doubts"].size() == 1);
    CHECK(byVolume["doubts"][0].get<std::string>().find("priced by the ml and weighed out") !=
          std::string::npos);
    CHECK(sample.of({"larder", "--name", "cinnamon stick", "--price", "20/100 g"})["doubts"].empty());
    const auto text = runProgram({"larder", sample.path, "--name", "cinnamon stick", "--price", "20/100 ml"});
    CHECK(text.out.find("! it is priced by the ml") != std::string::npos);
}

TEST_CASE("an edit of the larder that cannot be is named", "[app]") {
    const Sample sample;
    const auto refuses = [&](std::vector<std::string> edit, const char* why) {
        edit.insert(edit.begin(), {"larder", "--name", "Heather honey"});
        INFO(edit.back());
        CHECK(sample.refusal(edit).find(why) != std::string::npos);
    };
    refuses({"--price", "-3/700 ml"}, "cannot be below zero");
    refuses({"--price", "1,026.90/700 ml"}, "has a comma and a point: write 1026.90");
    refuses({"--price", "26,900/700 ml"}, "write 26900 or 26.900");
    refuses({"--price", "26.901/700 ml"}, "EUR, which has 2 decimals");
    refuses({"--price", "3/1,000.5 ml"}, "plainly: 1000.5");
    refuses({"--price", "3/0 ml"}, "holds nothing");
    refuses({"--price", "3/2000000 l"}, "larger than a thousand cubic metres");
    refuses({"--price", "3/2 parts"}, "in ml, l, g, kg or pieces");
    refuses({"--price", "3"}, "paid for how much");
    refuses({"--price", "3 XYW/1 l"}, "not a currency");
    refuses({"--price", "3 USD/1 l"}, "no exchange rate");
    refuses({"--usable", "0"}, "nothing would come of it");
    refuses({"--usable", "3/2"}, "more than was bought");
    refuses({"--usable", "120%"}, "more than was bought; at most 100%");
    refuses({"--usable", "most"}, "as in 17/20, 0.85 or 85%");
    refuses({"--fact", "abv_percent=140"}, "from 0 to 100");
    refuses({"--fact", "strength=40"}, "keys are abv_percent");
    CHECK(sample.refusal({"larder", "--name", "nothing of the kind"}).find("nothing called") !=
          std::string::npos);
    CHECK(sample.refusal({"larder", "--price", "3/1 l"}).find("need --name") != std::string::npos);
}

TEST_CASE("show says the house's own keeping days and the lots with their use by", "[app]") {
    const Sample sample;
    const json made = sample.of({"show", "--drink", "Heather-honey syrup"})["made"];
    CHECK(made["keep_days"] == 10);
    CHECK(made["keeping"]["basis"] == "house");
    REQUIRE(made["lots"].size() == 2);
    const json lot = named(made["lots"], "2026-11-20", "on");
    CHECK(lot["use_by"] == "2026-11-29"); // the making day is day 1 of 10
    CHECK(lot["used_up"] == false);
    CHECK(lot["got_ml"] == 850.0);
    const ProgramRun text = runProgram({"show", sample.path, "--drink", "Heather-honey syrup"});
    CHECK(text.out.find("Lot of 2026-11-20: use by 2026-11-29") != std::string::npos);
}

TEST_CASE("show warns of a drink and a preparation poured from a lot past its day", "[app]") {
    const Sample sample;
    // The draft floats the cream, of which nothing stands: it would be made of the syrup of the 22nd.
    for (const char* name : {"Long Candle", "Hearth cream"}) {
        INFO(name);
        const json shown = sample.of({"show", "--drink", name});
        const json& cautions =
            std::string(name) == "Long Candle" ? shown["draft"]["cautions"] : shown["made"]["cautions"];
        const json past = named(cautions, "part_past_use_by", "id");
        CHECK(past["severity"] == "warn");
        CHECK(past["text"].get<std::string>().find("2026-11-24") != std::string::npos);
    }
    const ProgramRun text = runProgram({"show", sample.path, "--drink", "Hearth cream"});
    CHECK(text.out.find("is past its last day, 2026-11-24") != std::string::npos);
}

TEST_CASE("show says which part of a preparation ends first", "[app]") {
    const Sample sample;
    // The syrup's lot of the 22nd has no date on it: three days by its puree, the making day counted.
    const json parts = sample.of({"show", "--drink", "Hearth cream"})["made"]["parts"];
    REQUIRE(parts.size() == 1);
    CHECK(parts[0]["on"] == "2026-11-22");
    CHECK(parts[0]["use_by"] == "2026-11-24");
    const ProgramRun text = runProgram({"show", sample.path, "--drink", "Hearth cream"});
    CHECK(text.out.find("of 2026-11-22: use by 2026-11-24") != std::string::npos);
}
