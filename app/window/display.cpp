#include "app/window/display.h"

#include "app/headless/command.h"

#include <QtGlobal>

#include <QString>

#include <cstdio>
#include <cstdlib>

namespace stillroom::app {

namespace {

void leaveOnFatal(QtMsgType type, const QMessageLogContext& /*context*/, const QString& message) {
    if (type == QtCriticalMsg) std::fprintf(stderr, "%s\n", qPrintable(message));
    if (type != QtFatalMsg) return;
    std::fprintf(stderr, "stillroom: the display did not answer, so no window can be opened.\n"
                         "Everything but the window works without one: stillroom --help\n");
    std::fflush(nullptr);
    std::_Exit(headless::kWrongUsage);
}

} // namespace

bool hasDisplay() {
    for (const char* name : {"QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY"})
        if (!qEnvironmentVariableIsEmpty(name)) return true;
    return false;
}

FatalExit::FatalExit() {
    qInstallMessageHandler(leaveOnFatal);
}

FatalExit::~FatalExit() {
    qInstallMessageHandler(nullptr);
}

} // namespace stillroom::app
