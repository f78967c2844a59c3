#pragma once

#include "core/base/clock.h"
#include "core/store/workbook.h"

#include <sqlite3.h>
#include <unistd.h>

#include <filesystem>
#include <memory>
#include <stdexcept>
#include <string>

// What the store's tests share: a folder of their own, drinks to put in a book, and a plain way at the file.
namespace stillroom::test {

// In memory where the system offers it: thousands of syncs then cost nothing, and none of these files has to
// survive a real power cut.
class TempFolder {
  public:
    TempFolder() {
        std::error_code ignored;
        const std::filesystem::path memory = "/dev/shm";
        const bool inMemory = access(memory.c_str(), W_OK) == 0 &&
                              std::filesystem::space(memory, ignored).available > 500'000'000;
        m_path = (inMemory ? memory : std::filesystem::temp_directory_path()) /
                 ("stillroom-" + base::Bits128::random().hex());
        std::filesystem::create_directories(m_path);
    }
    ~TempFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(m_path, ignored);
    }
    TempFolder(const TempFolder&) = delete;
    TempFolder& operator=(const TempFolder&) = delete;
    std::string file(const std::string& name) const { return (m_path / name).string(); }

  private:
    std::filesystem::path m_path;
};

inline const base::Instant kEvening{1793649600000, 60}; // 2 November 2026, 20:00 UTC

inline spec::Line line(const std::string& name, int ml, std::optional<base::IngredientId> ingredient = {}) {
    spec::Line line;
    line.written = std::to_string(ml) + " ml " + name;
    line.name = name;
    line.ingredient = ingredient;
    line.poured.amount = quantity::Amount::exact(ml);
    line.poured.measure = quantity::Measure::Ml;
    return line;
}

// A sour in three lines; `ml` is the juice, the amount that most tests change.
inline spec::Spec sour(int ml, std::optional<base::IngredientId> base = {}) {
    spec::Spec spec;
    spec.lines = {line("harbour gin", 50, base), line("lemon juice", ml), line("sugar syrup", 20)};
    spec.method.text = "Shake hard with ice, strain.";
    spec.method.technique = spec::Technique::Shake;
    spec.glass = "small coupe";
    return spec;
}

inline history::Drink drinkNamed(const std::string& name) {
    history::Drink drink;
    drink.name = name;
    drink.brief = "the first light north of the bar";
    drink.menuName = "Nine Lights";
    return drink;
}

inline larder::Fact fact(double typical) {
    return {typical, typical, typical, larder::SourceKind::Label, "label"};
}

inline larder::Ingredient bottleOf(const std::string& name, double abv) {
    larder::Ingredient ingredient;
    ingredient.id = base::IngredientId::random();
    ingredient.sort = larder::IngredientSort::Bottle;
    ingredient.name = name;
    ingredient.facts.abvPercent = fact(abv);
    ingredient.facts.sugarGPerL = fact(0);
    ingredient.facts.acidGPerL = fact(0);
    ingredient.facts.group = "spirit";
    return ingredient;
}

inline store::BookSettings lowLamp() {
    store::BookSettings settings;
    settings.name = "The Low Lamp";
    return settings;
}

// The file as any other program would see it. Throws what SQLite says.
class RawFile {
  public:
    explicit RawFile(const std::string& path) {
        if (sqlite3_open_v2(path.c_str(), &m_db, SQLITE_OPEN_READWRITE, nullptr) != SQLITE_OK) fail();
    }
    ~RawFile() { sqlite3_close(m_db); }
    RawFile(const RawFile&) = delete;
    RawFile& operator=(const RawFile&) = delete;

    void run(const std::string& sql) {
        if (sqlite3_exec(m_db, sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) fail();
    }
    std::string text(const std::string& sql) { // the first column of the first row
        sqlite3_stmt* statement = nullptr;
        if (sqlite3_prepare_v2(m_db, sql.c_str(), -1, &statement, nullptr) != SQLITE_OK) fail();
        std::string found;
        if (sqlite3_step(statement) == SQLITE_ROW)
            if (const auto* value = sqlite3_column_text(statement, 0))
                found = reinterpret_cast<const char*>(value);
        sqlite3_finalize(statement);
        return found;
    }

  private:
    [[noreturn]] void fail() { throw std::runtime_error(sqlite3_errmsg(m_db)); }
    sqlite3* m_db = nullptr;
};

// The kind of the StoreError that `work` throws; nullopt when it throws none.
template <class Work>
std::optional<store::StoreErrorKind> storeErrorOf(Work&& work) {
    try {
        work();
    } catch (const store::StoreError& error) {
        return error.kind();
    }
    return std::nullopt;
}

} // namespace stillroom::test
