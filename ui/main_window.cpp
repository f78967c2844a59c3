#include "ui/main_window.h"

namespace stillroom::ui {

MainWindow::MainWindow(QWidget* parent) : QMainWindow(parent) {
    setWindowTitle(QStringLiteral("Stillroom"));
    resize(1440, 900);
}

} // namespace stillroom::ui
