#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_session.hpp>
#else
#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>
#endif

#include <QApplication>
#include <QLocale>
#include <QStandardPaths>

// Widgets need an application; nothing here may depend on the machine's screen or language.
int main(int argc, char* argv[]) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QLocale::setDefault(QLocale::c());
    QApplication application(argc, argv);
    QStandardPaths::setTestModeEnabled(true);
    application.setApplicationName(QStringLiteral("stillroom-tests"));
    application.setOrganizationName(QStringLiteral("stillroom-tests"));
    return Catch::Session().run(argc, argv);
}
