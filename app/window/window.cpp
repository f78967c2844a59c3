#include "app/window/window.h"

#include "app/window/display.h"
#include "app/window/render_command.h"
#include "core/store/sample_book.h"
#include "ui/run_window.h"

#include <QApplication>

#include <cstdio>
#include <memory>

namespace stillroom::app {

namespace {

constexpr std::string_view kRenderHelp =
    R"(Draws a view of a workbook as the window shows it, without a window. The workbook is only read.

  VIEW             bench, working, held, more, desk, side-by-side, tasting, trail, glass,
                   balance, larder, larder-edit, what-to-buy, find-fact, target, stand-in,
                   search, bin, panel, panel-new, panel-planned, panel-pouring, panel-closed or asks
  --drink NAME     which drink; default: the first drink on the shelf
  --words WORDS    what to search for, in the view "search"; the session, in the panel views
  --size WxH       pixels at scale 1; default: the view's usual size
  --scale N        device pixels for one of those: 2 for a picture of twice the pixels
  --dark           in the dark theme

Exit code: 0 drawn; 1 the workbook or the picture has a problem; 2 wrong usage.
)";

} // namespace

int openWindow(int& argc, char** argv, const WindowRequest& request) {
    if (!hasDisplay()) {
        std::fprintf(stderr, "stillroom: there is no display here, so no window can be opened.\n"
                             "Everything but the window works without one: stillroom --help\n");
        return headless::kWrongUsage;
    }
    std::unique_ptr<QApplication> application;
    {
        const FatalExit fatalExit;
        application = std::make_unique<QApplication>(argc, argv);
    }
    ui::WindowStart start;
    start.path = request.path;
    start.sample = request.sample;
    start.createSample = store::createSampleBook;
    return ui::runWindow(*application, start);
}

const std::vector<headless::Command>& drawingCommands() {
    static const std::vector<headless::Command> table{
        {"render",
         "draw a view into a picture",
         "render VIEW --workbook FILE [--drink NAME] [--words WORDS] --out PNG [--size WxH] [--scale 2] "
         "[--dark]",
         kRenderHelp,
         {{"--dark"}, {"--workbook", "--drink", "--words", "--out", "--size", "--scale"}, 1, 1},
         runRender}};
    return table;
}

} // namespace stillroom::app
