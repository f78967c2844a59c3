#include "app/headless/words.h"

#include "core/preparation/ratio.h"

#include <fmt/format.h>

#include <cmath>

namespace stillroom::headless {

using exchange::DoubtCode;
using exchange::ReadKind;
using exchange::ReadProblem;
using spec::GapCode;
using store::StoreErrorKind;

std::string_view readKindId(ReadKind kind) {
    switch (kind) {
    case ReadKind::Ingredient:
        return "ingredient";
    case ReadKind::Garnish:
        return "garnish";
    case ReadKind::Heading:
        return "heading";
    case ReadKind::Fused:
        return "fused";
    case ReadKind::Method:
        return "method";
    case ReadKind::Title:
        return "title";
    case ReadKind::Note:
        return "note";
    case ReadKind::Refused:
        return "refused";
    case ReadKind::Unread:
        break;
    }
    return "unread";
}

std::string_view readProblemId(ReadProblem problem) {
    switch (problem) {
    case ReadProblem::None:
        break;
    case ReadProblem::NothingToRead:
        return "nothing_to_read";
    case ReadProblem::NotText:
        return "not_text";
    case ReadProblem::TooDeep:
        return "too_deep";
    case ReadProblem::TooLarge:
        return "too_large";
    }
    return "";
}

std::string_view readProblemWords(ReadProblem problem) {
    switch (problem) {
    case ReadProblem::None:
        break;
    case ReadProblem::NothingToRead:
        return "There is nothing to read.";
    case ReadProblem::NotText:
        return "This is not a text recipe.";
    case ReadProblem::TooDeep:
        return "This page is nested too deeply to be read.";
    case ReadProblem::TooLarge:
        return "This is too large to be a recipe.";
    }
    return "";
}

std::string_view doubtId(DoubtCode code) {
    switch (code) {
    case DoubtCode::OunceOfSolid:
        return "ounce_of_solid";
    case DoubtCode::RangeOrFraction:
        return "range_or_fraction";
    case DoubtCode::CommaAmbiguous:
        return "comma_ambiguous";
    case DoubtCode::NumberUnclear:
        return "number_unclear";
    case DoubtCode::NegativeAmount:
        return "negative_amount";
    case DoubtCode::ZeroDenominator:
        return "zero_denominator";
    case DoubtCode::NotANumber:
        return "not_a_number";
    case DoubtCode::TooLarge:
        return "too_large";
    case DoubtCode::TooSmall:
        return "too_small";
    case DoubtCode::StrengthAbove100:
        return "strength_above_100";
    case DoubtCode::AmountAbsurd:
        return "amount_absurd";
    case DoubtCode::MeasureGuessed:
        return "measure_guessed";
    case DoubtCode::RatioBasisUnstated:
        return "ratio_basis_unstated";
    case DoubtCode::Fused:
        return "fused";
    case DoubtCode::Duplicate:
        return "duplicate";
    case DoubtCode::NameAmbiguous:
        return "name_ambiguous";
    case DoubtCode::LineTooLong:
        return "line_too_long";
    case DoubtCode::EncodingRecovered:
        return "encoding_recovered";
    case DoubtCode::ControlCharacters:
        return "control_characters";
    case DoubtCode::BidiControls:
        return "bidi_controls";
    case DoubtCode::MarkupBlockInvalid:
        return "markup_block_invalid";
    case DoubtCode::NestingTooDeep:
        return "nesting_too_deep";
    case DoubtCode::AlternativeNotChosen:
        return "alternative_not_chosen";
    case DoubtCode::SeveralDrinks:
        return "several_drinks";
    case DoubtCode::LocalSpoon:
        return "local_spoon";
    }
    return "unknown";
}

namespace {

std::string_view doubtSentence(DoubtCode code) {
    switch (code) {
    case DoubtCode::OunceOfSolid:
        return "ounces of something solid: weighed or poured?";
    case DoubtCode::RangeOrFraction:
        return "a range or a fraction?";
    case DoubtCode::CommaAmbiguous:
        return "is the comma a decimal point or a thousands mark?";
    case DoubtCode::NumberUnclear:
        return "the number is not clear";
    case DoubtCode::NegativeAmount:
        return "an amount cannot be negative";
    case DoubtCode::ZeroDenominator:
        return "nothing can be divided by zero";
    case DoubtCode::NotANumber:
        return "this is not a number";
    case DoubtCode::TooLarge:
        return "too large for a drink; kept as written";
    case DoubtCode::TooSmall:
        return "too small to measure; kept as written";
    case DoubtCode::StrengthAbove100:
        return "nothing is stronger than 100 % vol";
    case DoubtCode::AmountAbsurd:
        return "the words are clear, the amount is unusual: is it meant?";
    case DoubtCode::MeasureGuessed:
        return "the measure is a guess";
    case DoubtCode::RatioBasisUnstated:
        return "a ratio by weight or by volume?";
    case DoubtCode::Fused:
        return "several ingredients run together: split here?";
    case DoubtCode::Duplicate:
        return "this line stands here more than once";
    case DoubtCode::NameAmbiguous:
        return "the name could mean more than one thing";
    case DoubtCode::LineTooLong:
        return "the line is too long and was cut";
    case DoubtCode::EncodingRecovered:
        return "some characters were not UTF-8; read as Windows-1252";
    case DoubtCode::ControlCharacters:
        return "control characters were taken out";
    case DoubtCode::BidiControls:
        return "text-direction controls were taken out";
    case DoubtCode::MarkupBlockInvalid:
        return "a marked-up recipe in the page is broken and was passed over";
    case DoubtCode::NestingTooDeep:
        return "nested too deeply; the rest was passed over";
    case DoubtCode::AlternativeNotChosen:
        return "one or the other: which?";
    case DoubtCode::SeveralDrinks:
        return "a second name with lines of its own: two drinks?";
    case DoubtCode::LocalSpoon:
        return "spoons and cups differ by country";
    }
    return "not clear";
}

} // namespace

std::string_view doubtWeightId(exchange::DoubtWeight weight) {
    switch (weight) {
    case exchange::DoubtWeight::Note:
        return "note";
    case exchange::DoubtWeight::Warn:
        return "warn";
    case exchange::DoubtWeight::Ask:
        return "ask";
    case exchange::DoubtWeight::Refuse:
        break;
    }
    return "refuse";
}

namespace {

std::string syrupWords(const preparation::SyrupReading& syrup) {
    return fmt::format("{:.1f} °Bx, {:.1f} g of sugar in 30 ml", syrup.brix.percent(),
                       syrup.sugarPer30Ml.grams());
}

} // namespace

std::string numberProblemWords(exchange::NumberProblem problem, std::string_view typed) {
    using P = exchange::NumberProblem;
    const std::string plainly = exchange::plainlyWritten(typed);
    const std::string write = plainly.empty() ? "" : ": write " + plainly;
    switch (problem) {
    case P::CommaAndPoint:
        return fmt::format("\"{}\" has a comma and a point{}", typed, write);
    case P::CommaAmbiguous:
        return fmt::format("\"{}\" could be a thousand or a decimal{}", typed, write);
    case P::NotANumber:
        break;
    }
    return fmt::format("\"{}\" is not a number", typed);
}

std::string doubtWords(const exchange::Doubt& doubt) {
    if (doubt.code == DoubtCode::CommaAmbiguous)
        if (const auto read = exchange::plainNumber(doubt.detail);
            !read && read.error() == exchange::NumberProblem::CommaAndPoint)
            return numberProblemWords(read.error(), doubt.detail);
    if (doubt.code == DoubtCode::RatioBasisUnstated)
        if (const auto both = preparation::outcomesOf(doubt.detail))
            return fmt::format("{} by weight ({}) or by the cup ({})?", doubt.detail,
                               syrupWords(both->byWeight), syrupWords(both->byCup));
    const std::string_view sentence = doubtSentence(doubt.code);
    return doubt.detail.empty() ? std::string(sentence) : fmt::format("{} ({})", sentence, doubt.detail);
}

namespace {

std::string_view priceFaultWords(std::string_view problem) {
    if (problem == "no_size") return "its pack says no size, or more than one";
    if (problem == "size_not_above_0") return "the size of its pack is not above zero";
    if (problem == "size_too_large") return "the size of its pack is a slip of the pen";
    if (problem == "bad_tax") return "the tax in its price is below zero";
    if (problem == "bad_shares") return "what is got from its purchase takes more than its whole price";
    if (problem == "cycle") return "it is got from itself";
    return "its price cannot be worked out";
}

} // namespace

std::string gapWords(const spec::Gap& gap) {
    const auto of = [&](std::string_view what) {
        return gap.ingredient.empty() ? std::string(what) : fmt::format("{}: {}", gap.ingredient, what);
    };
    switch (gap.code) {
    case GapCode::StrengthUnknown:
        return of("strength is not known");
    case GapCode::SugarUnknown:
        return of("sugar is not known");
    case GapCode::AcidUnknown:
        return of("acid is not known");
    case GapCode::DensityUnknown:
        return of("density is not known");
    case GapCode::PriceUnknown:
        return gap.detail.empty() ? of("no price") : of(fmt::format("no price for {}", gap.detail));
    case GapCode::PriceCurrency:
        return gap.detail.empty() ? of("priced in another currency, and no rate")
                                  : of(fmt::format("priced in {}, and no rate of the day", gap.detail));
    case GapCode::PriceUnit:
        return of("bought in a unit that what is poured cannot be turned into");
    case GapCode::PriceYield:
        return of("its yield leaves nothing, or more than was bought");
    case GapCode::PriceNegative:
        return of("its price is below zero");
    case GapCode::PriceWrong:
        return of(priceFaultWords(gap.detail));
    case GapCode::AmountNotStated:
        return of("no amount stated, so it is not counted");
    case GapCode::MeasureHasNoSize:
        return of("the measure has no size here, so it is not counted");
    case GapCode::OptionalLeftOut:
        return of("optional, so it is not counted");
    case GapCode::ToTasteLeftOut:
        return of("to taste, so it is not counted");
    case GapCode::IngredientUnknown:
        return of("nothing is known of it");
    case GapCode::DilutionUnknown:
        return "The method does not say how much water it adds";
    case GapCode::RinseByTheHouse:
        return of("a rinse without an amount; what the house finds stays in the glass is counted");
    case GapCode::SolidShareUnknown:
        return of("how much of it is drunk is not known, so it is not counted");
    case GapCode::GlassUnknown:
        return "The glass has no known shape";
    case GapCode::PartTargetMissing:
        return "Parts need a volume to aim at";
    case GapCode::FactsContradict: {
        if (gap.densityOffKgPerM3 == 0 && gap.asSugarGPerL == 0)
            return of("its strength and what is dissolved in it do not fit in a litre together");
        const bool heavier = gap.densityOffKgPerM3 > 0;
        return of(fmt::format(
            "its density is {:.1f} kg/m³ {} strength and sugar make it, as if there were {:.0f} g/l "
            "{} sugar; one of the three is wrong",
            std::abs(gap.densityOffKgPerM3), heavier ? "above what" : "below what",
            std::abs(gap.asSugarGPerL), heavier ? "more" : "less"));
    }
    }
    return of("something is missing");
}

std::string_view matchQualityId(larder::MatchQuality quality) {
    switch (quality) {
    case larder::MatchQuality::None:
        break;
    case larder::MatchQuality::Exact:
        return "exact";
    case larder::MatchQuality::Remembered:
        return "remembered";
    case larder::MatchQuality::Close:
        return "close";
    case larder::MatchQuality::Ambiguous:
        return "ambiguous";
    }
    return "none";
}

std::string_view quantityWords(spec::Quantity quantity) {
    switch (quantity) {
    case spec::Quantity::PouredVolume:
        return "Poured";
    case spec::Quantity::Volume:
        return "Volume at 20 °C";
    case spec::Quantity::Strength:
        return "Strength";
    case spec::Quantity::Ethanol:
        return "Alcohol";
    case spec::Quantity::Sugar:
        return "Sugar";
    case spec::Quantity::Brix:
        return "Brix";
    case spec::Quantity::Acid:
        return "Acid, as citric";
    case spec::Quantity::SugarAcidRatio:
        return "Sugar to acid";
    case spec::Quantity::Mass:
        return "Mass";
    case spec::Quantity::Density:
        return "Density at 20 °C";
    case spec::Quantity::Dilution:
        return "Water added, of the start";
    case spec::Quantity::Temperature:
        return "Temperature";
    case spec::Quantity::Cost:
        return "Cost";
    case spec::Quantity::EnergyKj:
        return "Energy";
    case spec::Quantity::EnergyKcal:
        return "Energy";
    case spec::Quantity::StandardDrinks:
        break;
    }
    return "Standard drinks";
}

std::string_view moreWords(spec::More more) {
    switch (more) {
    case spec::More::FreezingOnset:
        return "Freezing begins";
    case spec::More::Ph:
        return "pH";
    case spec::More::Sweetness:
        return "Sweetness, as sucrose";
    case spec::More::SweetnessLow:
        return "  with the lowest factors";
    case spec::More::SweetnessHigh:
        return "  with the highest";
    case spec::More::Co2GPerL:
        return "Carbon dioxide";
    case spec::More::Co2Volumes:
        return "  in volumes";
    case spec::More::WaterActivity:
        return "Water activity";
    case spec::More::Caffeine:
        return "Caffeine";
    case spec::More::ProofUs:
        return "US proof";
    case spec::More::ProofUk:
        return "British proof";
    case spec::More::Contraction:
        return "Lost by mixing";
    case spec::More::RelativeDensity:
        return "Relative density";
    case spec::More::RefractiveIndex:
        return "Refractive index";
    case spec::More::Baume:
        return "Baumé";
    }
    return {};
}

std::string_view moreNoteWords(std::string_view note) {
    if (note == "tables_differ") return "published tables of ethanol differ by up to 1.5 °C";
    if (note == "juices_are_buffered") return "an estimate; juices are buffered, measure";
    if (note == "a_scale_not_a_measure") return "a scale for comparing, not a measurement";
    if (note == "upper_bound") return "at most: nothing lost in pouring, shaking or blending";
    if (note == "estimate_only") return "an estimate; never the ground of a safety decision";
    if (note == "lines_without_figure_left_out") return "lines that state no caffeine bring none";
    if (note == "sugar_and_water_only") return "of sugar in water; alcohol shifts a refractometer";
    return {};
}

std::string_view severityWords(spec::Severity severity) {
    switch (severity) {
    case spec::Severity::Danger:
        return "DANGER";
    case spec::Severity::Warn:
        return "CAUTION";
    case spec::Severity::Allergen:
        return "ALLERGEN";
    case spec::Severity::Info:
        break;
    }
    return "NOTE";
}

std::string_view verdictWords(tasting::Verdict verdict) {
    switch (verdict) {
    case tasting::Verdict::None:
        break;
    case tasting::Verdict::Keep:
        return "keep";
    case tasting::Verdict::Change:
        return "change";
    case tasting::Verdict::Drop:
        return "drop";
    }
    return "no verdict";
}

std::string storeErrorWords(const store::StoreError& error) {
    const std::string& path = error.path();
    switch (error.kind()) {
    case StoreErrorKind::NotFound:
        return fmt::format("{}: there is no such file.", path);
    case StoreErrorKind::AlreadyExists:
        return fmt::format("{}: something stands there already; nothing was written over it.", path);
    case StoreErrorKind::NotADatabase:
        return fmt::format("{}: {}. Nothing was changed.", path, error.what());
    case StoreErrorKind::NotAWorkbook:
        return fmt::format(
            "{}: this is not a workbook: a folder, an empty file or another program's. Nothing was changed.",
            path);
    case StoreErrorKind::NewerIncompatible:
        return fmt::format(
            "{}: a newer Stillroom wrote this workbook; open it with that one. Nothing was changed.", path);
    case StoreErrorKind::Damaged:
        return fmt::format("{}: the file is damaged ({}). It was left as it is; take a backup.", path,
                           error.what());
    case StoreErrorKind::Locked:
        return fmt::format("{}: another program has it open ({}). Nothing was changed; close it there first.",
                           path, error.what());
    case StoreErrorKind::ReadOnly:
        return fmt::format("{}: it can be read here but not written. Nothing was changed.", path);
    case StoreErrorKind::DiskFull:
        return fmt::format("{}: the disk is full. What was saved before stands; this was not saved.", path);
    case StoreErrorKind::Io:
        if (error.sqliteCode() == 0) return fmt::format("{}: {}.", path, error.what()); // found before it
        return fmt::format("{}: the disk did not answer ({}). What was saved before stands.", path,
                           error.what());
    case StoreErrorKind::Circle:
        return fmt::format("{}: a preparation would be made of itself: {}. Nothing was changed.", path,
                           error.what());
    case StoreErrorKind::Refused:
        break;
    }
    return fmt::format("{}: refused ({}). Nothing was changed.", path, error.what());
}

} // namespace stillroom::headless
