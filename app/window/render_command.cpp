#include "app/window/render_command.h"

#include "app/window/display.h"
#include "ui/render/render_view.h"

#include <QApplication>

#include <optional>
#include <ostream>

namespace stillroom::app {

namespace {

constexpr int kLargestSide = 16384;

// "1440x900"
std::optional<QSize> sizeFrom(const std::string& text) {
    const QStringList sides = QString::fromStdString(text).split(QLatin1Char('x'));
    if (sides.size() != 2) return std::nullopt;
    bool wide = false;
    bool high = false;
    const QSize size(sides[0].toInt(&wide), sides[1].toInt(&high));
    if (!wide || !high || size.width() < 16 || size.height() < 16) return std::nullopt;
    if (size.width() > kLargestSide || size.height() > kLargestSide) return std::nullopt;
    return size;
}

std::optional<ui::RenderRequest> requestFrom(const headless::Options& options, std::string& problem) {
    ui::RenderRequest request;
    request.view = QString::fromStdString(options.plain.front());
    request.workbook = QString::fromStdString(options.value("--workbook"));
    request.drink = QString::fromStdString(options.value("--drink"));
    request.words = QString::fromStdString(options.value("--words"));
    request.dark = options.has("--dark");
    if (!ui::renderViews().contains(request.view)) {
        problem = "there is no view \"" + options.plain.front() + "\"; there are " +
                  ui::renderViews().join(QStringLiteral(", ")).toStdString();
        return std::nullopt;
    }
    for (const char* needed : {"--workbook", "--out"})
        if (options.value(needed).empty()) {
            problem = std::string(needed) + " FILE is missing";
            return std::nullopt;
        }
    if (options.has("--size")) {
        const auto size = sizeFrom(options.value("--size"));
        if (!size) {
            problem = "--size is WIDTHxHEIGHT, such as 1440x900";
            return std::nullopt;
        }
        request.size = *size;
    }
    if (options.has("--scale")) {
        bool number = false;
        request.scale = QString::fromStdString(options.value("--scale")).toDouble(&number);
        if (!number || !(request.scale > 0 && request.scale <= 8)) {
            problem = "--scale is a number above 0 and at most 8";
            return std::nullopt;
        }
    }
    return request;
}

} // namespace

int runRender(const headless::Options& options, headless::Streams& streams) {
    std::string problem;
    const auto request = requestFrom(options, problem);
    if (!request) {
        streams.err << "stillroom render: " << headless::clean(problem) << ".\n";
        return headless::kWrongUsage;
    }
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    static char name[] = "stillroom";
    static char* arguments[] = {name, nullptr};
    static int count = 1;
    const FatalExit fatalExit;
    const QApplication application(count, arguments);
    const auto image = ui::renderView(*request);
    if (!image) {
        streams.err << "stillroom render: " << headless::clean(image.error().toStdString()) << "\n";
        return headless::kProblem;
    }
    const std::string& out = options.value("--out");
    if (!image->save(QString::fromStdString(out), "PNG")) {
        streams.err << "stillroom render: " << headless::clean(out)
                    << ": the picture could not be written.\n";
        return headless::kProblem;
    }
    streams.out << headless::clean(out) << ": " << image->width() << " x " << image->height() << "\n";
    return headless::kDone;
}

} // namespace stillroom::app
