#include "app/window/window.h"

#include "app/window/display.h"
#include "core/store/sample_book.h"
#include "ui/run_window.h"

#include <QApplication>

#include <cstdio>
#include <memory>

namespace stillroom::app {

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
    static const std::vector<headless::Command> table;
    return table;
}

} // namespace stillroom::app
