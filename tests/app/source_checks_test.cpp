#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <cstdlib>
#include <filesystem>

using namespace stillroom::tests;
namespace fs = std::filesystem;

namespace {

// Whether check_includes.sh passes a small tree that holds this one file.
bool passes(const std::string& file, const std::string& content) {
    const TemporaryFolder folder;
    for (const char* name :
         {"core/base", "core/spec", "core/store", "core/tasting", "core/balance", "ui", "app/headless"})
        fs::create_directories(folder.path(name));
    writeFile(folder.path(file), content);
    const std::string command = "sh " STILLROOM_SOURCE_DIR "/tests/support/check_includes.sh '" +
                                folder.path("") + "' >/dev/null 2>&1";
    return std::system(command.c_str()) == 0;
}

} // namespace

TEST_CASE("the include check lets what stands below through", "[source]") {
    CHECK(passes("core/spec/a.cpp", "#include \"core/base/id.h\"\n#include <vector>\n"));
    CHECK(passes("core/store/a.cpp", "#include <sqlite3.h>\nauto q = \"SELECT a FROM b\";\n"));
    CHECK(passes("ui/a.cpp", "#include \"core/store/workbook.h\"\n#include <QWidget>\n"));
}

TEST_CASE("the include check finds every sort of breach", "[source]") {
    CHECK_FALSE(passes("core/spec/a.cpp", "#include \"core/store/workbook.h\"\n"));
    CHECK_FALSE(passes("core/base/a.h", "  #  include \"core/spec/spec.h\"\n"));
    CHECK_FALSE(passes("core/tasting/a.h", "#include \"core/balance/style_region.h\"\n"));
    CHECK_FALSE(passes("core/spec/a.cpp", "#include <QString>\n"));
    CHECK_FALSE(passes("core/spec/a.cpp", "#include \"ui/main_window.h\"\n"));
    CHECK_FALSE(passes("app/headless/a.cpp", "#include <QApplication>\n"));
    CHECK_FALSE(passes("ui/a.cpp", "#include <sqlite3.h>\n"));
    CHECK_FALSE(passes("ui/a.cpp", "#include \"app/main.h\"\n"));
    CHECK_FALSE(passes("core/spec/a.cpp", "auto q = \"INSERT INTO drink VALUES (1)\";\n"));
    CHECK_FALSE(passes("core/spec/a.cpp", "#include \"../base/id.h\"\n"));
}
