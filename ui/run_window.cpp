#include "ui/run_window.h"

#include "ui/main_window.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QSettings>

namespace stillroom::ui {

int runWindow(QApplication& application, const WindowStart& start) {
    application.setApplicationName(QStringLiteral("Stillroom"));
    application.setOrganizationName(QStringLiteral("Stillroom"));
    auto& theme = Theme::current();
    theme.install();
    const QSettings settings;
    if (settings.contains(QStringLiteral("look/choice")))
        theme.setChoice(static_cast<Theme::Choice>(settings.value(QStringLiteral("look/choice")).toInt()));
    if (settings.contains(QStringLiteral("look/zoom")))
        theme.setZoomPercent(settings.value(QStringLiteral("look/zoom")).toInt());
    MainWindow window(start);
    window.show();
    window.begin();
    return application.exec();
}

} // namespace stillroom::ui
