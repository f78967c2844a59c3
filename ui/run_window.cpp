#include "ui/run_window.h"

#include "ui/main_window.h"
#include "ui/theme/theme.h"

#include <QApplication>

namespace stillroom::ui {

int runWindow(QApplication& application, const WindowStart& /*start*/) {
    Theme::current().install();
    MainWindow window;
    window.show();
    return application.exec();
}

} // namespace stillroom::ui
