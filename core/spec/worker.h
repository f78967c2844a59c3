#pragma once

#include "core/spec/bounds.h"
#include "core/spec/more_values.h"
#include "core/spec/scenario.h"
#include "core/spec/temperature.h"
#include "core/spec/working.h"

// How a working is put together, for working.cpp and nobody else: one pass is recorded, and each subject
// (worker_sums, worker_method, worker_readings, worker_temperature, worker_more) writes its steps from it.
namespace stillroom::spec {

// What one line brought, as the pass told it.
struct Brought {
    std::size_t line = 0;
    double units = 0; // ml, or g of a dry good
    double pouredMl = 0;
    std::int64_t millionths = 0;
    bool inDrink = false;
};

class Recorder : public LineListener {
  public:
    void stays(std::size_t line, double units) override {
        Brought& one = of(line);
        one.units = units;
        one.inDrink = true;
    }
    void pours(std::size_t line, double ml, std::int64_t millionths) override {
        Brought& one = of(line);
        one.pouredMl = ml;
        one.millionths = millionths;
    }
    std::vector<Brought> lines;

  private:
    Brought& of(std::size_t line) {
        for (Brought& one : lines)
            if (one.line == line) return one;
        lines.push_back({line});
        return lines.back();
    }
};

class Worker {
  public:
    Worker(const Spec& spec, const Bindings& bindings, Quantity quantity, Stage stage);
    Worker(const Spec& spec, const Bindings& bindings, More more, Stage stage);
    void work();

    Working result;

  private:
    using Fact = larder::Fact;
    using Op = WorkingStep::Op;

    void record(const Spec& spec);

    // parts
    const Totals& totals() const;
    double raw() const;
    bool isHere(const Brought& one) const;
    const PreparedFacts& factsOf(std::size_t line) const;
    std::string nameOf(std::size_t line) const;
    std::string factSource(std::size_t line, std::optional<Fact> larder::FactState::*member) const;
    WorkingStep& add(std::string label, std::string formula, Op op, double value, std::string unit,
                     int decimals);
    static void input(WorkingStep& step, std::string name, double value, std::string unit,
                      std::string source = {}, std::string detail = {}, int line = -1);

    // sums
    // A sum over the lines that are in the drink at this stage.
    void sumOfLines(const std::string& label, const std::string& formula, double (*perUnit)(const Totals&),
                    double whole, const char* unit, std::optional<Fact> larder::FactState::*member,
                    double water = -1);
    double methodWaterG() const;
    void ethanol();
    void sugar();
    void acid();
    void water();
    void mass();
    void volume();
    void volumeOf(const Totals& t, double ml, const std::string& label);

    // water of the method
    void measuredVolume();
    const char* curveWords() const;
    void dilution();
    void balance(double predicted);
    void temperatureInput(WorkingStep& step, const Brought& one) const;
    void iceInputs(WorkingStep& step) const;
    void methodWater();

    // readings
    void ratio(const char* label, const char* formula, const char* upper, double upperValue,
               const char* upperUnit, const char* lower, double lowerValue, const char* lowerUnit,
               double factor, const char* unit);
    void perServe(const char* label, double whole, const char* unit);
    void steps();
    void perServeStandard(double whole);
    void poured();
    void cost();
    void energy(bool kj);

    // further readings
    void sumOfSubstance(const char* label, const char* formula, double (*grams)(const physics::Composition&),
                        const char* unit = "g", double scale = 1, double water = -1,
                        std::optional<Fact> larder::FactState::*member = nullptr);
    void moreSteps();
    void solutes();
    void freezingOnset();
    void waterActivity();
    void acidity();
    void sweetness();
    void fizz();
    void contraction();
    void ofDensity();
    void refraction();
    void proof();

    // temperature
    void partsStep(const char* label, double celsius, bool later);
    void temperature();
    void thawed(const char* label, double celsius, double frozenJ);
    void mixedTemperature(const TemperatureTrace& trace);

    // end
    // The last step is the reading, whatever the spec leaves open.
    void settle();
    std::string currency() const;
    std::string unit() const;
    void addNotes();
    void addLossNotes();
    void addScaldNotes();

    const Spec& m_spec;
    const Bindings& m_bindings;
    const Bindings::Data& m_data;
    int m_serves;
    std::size_t m_s;
    Recorder m_recorder;
    Pass m_pass;
    RawStages m_raw{};
    physics::Composition m_whole; // of a further reading
    MoreValues m_more{};
};

} // namespace stillroom::spec
