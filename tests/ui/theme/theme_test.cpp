#include "tests/support/catch.h"

#include "ui/theme/banner.h"
#include "ui/theme/icons.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QFontInfo>
#include <QFontMetricsF>
#include <QImage>
#include <QPainter>
#include <QPdfWriter>
#include <QPushButton>
#include <QSignalSpy>
#include <QTemporaryDir>

#include <cmath>

using namespace stillroom::ui;
using namespace Qt::Literals::StringLiterals;

namespace {

// WCAG 2.2, "relative luminance" and "contrast ratio".
double luminance(const QColor& color) {
    const auto linear = [](double c) {
        return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(color.redF()) + 0.7152 * linear(color.greenF()) + 0.0722 * linear(color.blueF());
}

double contrast(const QColor& a, const QColor& b) {
    const double la = luminance(a);
    const double lb = luminance(b);
    return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

double leastOn(const Look& look, Token ink, std::initializer_list<Token> surfaces) {
    double least = 21;
    for (const auto surface : surfaces)
        least = std::min(least, contrast(look.color(ink), look.color(surface)));
    return least;
}

bool hasInk(const QImage& image) {
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            if (qAlpha(image.pixel(x, y)) > 60) return true;
    return false;
}

} // namespace

TEST_CASE("The formula of contrast gives the published ends", "[theme]") {
    CHECK(contrast(Qt::black, Qt::white) == Approx(21.0));
    CHECK(contrast(Qt::white, Qt::white) == Approx(1.0));
    // #767676 on white is the darkest common example of exactly enough: 4.54 : 1.
    CHECK(contrast(QColor(0x76, 0x76, 0x76), Qt::white) == Approx(4.54).margin(0.01));
}

TEST_CASE("Every text stands out from everything it is written on", "[theme]") {
    for (const auto mode : {Mode::Light, Mode::Dark}) {
        const auto look = Look::of(mode);
        const auto pages = {Token::Surface, Token::Page, Token::Well};
        INFO((mode == Mode::Light ? "light" : "dark"));
        CHECK(leastOn(look, Token::Ink, pages) >= 12.4);
        CHECK(leastOn(look, Token::Ink2, pages) >= 7.2);
        CHECK(leastOn(look, Token::Ink3, pages) >= 4.5);
        CHECK(leastOn(look, Token::Intent, pages) >= 4.5);
        CHECK(leastOn(look, Token::ChangeUp, pages) >= 4.5);
        CHECK(leastOn(look, Token::ChangeDown, pages) >= 4.5);
        CHECK(leastOn(look, Token::Gap, pages) >= 4.5);
        CHECK(leastOn(look, Token::OnCaution, {Token::CautionSoft}) >= 4.5);
        CHECK(leastOn(look, Token::OnError, {Token::ErrorSoft}) >= 4.5);
        CHECK(leastOn(look, Token::Ink, {Token::GapSoft, Token::Selection}) >= 4.5);
        CHECK(leastOn(look, Token::OnIntent, {Token::Intent}) >= 4.5);
        CHECK(leastOn(look, Token::Ink2, {Token::LiquidBody}) >= 4.5);
        // Lines and marks that carry a meaning: 3 : 1.
        CHECK(leastOn(look, Token::RuleStrong, pages) >= 3.0);
        CHECK(leastOn(look, Token::GlassLine, pages) >= 3.0);
        CHECK(leastOn(look, Token::Focus, pages) >= 3.0);
    }
}

TEST_CASE("The stages are told apart by lightness in order", "[theme]") {
    for (const auto mode : {Mode::Light, Mode::Dark}) {
        const auto look = Look::of(mode);
        const double direction = mode == Mode::Light ? -1 : 1;
        const auto rise = [&](Token a, Token b) {
            return direction * (luminance(look.color(b)) - luminance(look.color(a)));
        };
        CHECK(rise(Token::StageMeasured, Token::StageMixed) > 0);
        CHECK(rise(Token::StageMixed, Token::StageServed) > 0);
        CHECK(rise(Token::StageServed, Token::StageHeld) > 0);
    }
}

TEST_CASE("Numbers keep their width in every weight of the gauge", "[theme]") {
    const auto look = Look::of(Mode::Light);
    const QFontMetricsF regular(look.font(Type::Reading));
    const QFontMetricsF bold(look.font(Type::ReadingServed));
    REQUIRE(regular.inFont(u'0'));
    for (const QChar digit : u"123456789"_s)
        CHECK(regular.horizontalAdvance(digit) == Approx(regular.horizontalAdvance(u'0')));
    if (QFontInfo(look.font(Type::Reading)).family() == u"Lato"_s)
        CHECK(bold.horizontalAdvance(u"0123456789"_s) == Approx(regular.horizontalAdvance(u"0123456789"_s)));
    // No italic voice for the gauge, no bold one for the hand.
    for (int i = 0; i < static_cast<int>(kTypeCount); ++i) {
        const auto& font = look.font(static_cast<Type>(i));
        const bool gauge = font.families() == look.font(Type::Reading).families();
        INFO(typeId(static_cast<Type>(i)).toString().toStdString());
        CHECK_FALSE((gauge && font.italic()));
        CHECK_FALSE((!gauge && font.weight() > QFont::Normal));
    }
}

TEST_CASE("Type grows with the zoom and the zoom stays within its ends", "[theme]") {
    const auto once = Look::of(Mode::Light, 1.0);
    const auto twice = Look::of(Mode::Light, 2.0);
    CHECK(twice.font(Type::Title).pointSizeF() == Approx(2 * once.font(Type::Title).pointSizeF()));
    CHECK(twice.px(26) == Approx(52));
    auto& theme = Theme::current();
    const int before = theme.zoomPercent();
    theme.setZoomPercent(500);
    CHECK(theme.zoomPercent() == Theme::kMostZoom);
    theme.setZoomPercent(10);
    CHECK(theme.zoomPercent() == Theme::kLeastZoom);
    theme.setZoomPercent(before);
}

TEST_CASE("Switching light and dark tells everyone and changes the palette", "[theme]") {
    auto& theme = Theme::current();
    theme.install();
    theme.setChoice(Theme::Choice::Light);
    QSignalSpy spy(&theme, &Theme::changed);
    theme.setChoice(Theme::Choice::Dark);
    CHECK(spy.count() == 1);
    CHECK(Theme::isDark(QApplication::palette()));
    theme.setChoice(Theme::Choice::Dark);
    CHECK(spy.count() == 1); // nothing changed, nothing told
    theme.setChoice(Theme::Choice::Light);
    CHECK_FALSE(Theme::isDark(QApplication::palette()));
    CHECK(spy.count() == 2);
}

TEST_CASE("No icon is empty in either theme and each takes its token's colour", "[theme]") {
    const auto names = iconNames();
    REQUIRE(names.size() >= 28);
    for (const auto mode : {Mode::Light, Mode::Dark}) {
        const auto look = Look::of(mode);
        for (const auto& name : names) {
            INFO(name.toStdString());
            const auto image = iconPixmap(name, look.color(Token::Ink2), 16, 2).toImage();
            REQUIRE(image.size() == QSize(32, 32));
            CHECK(hasInk(image));
            bool coloured = false;
            for (int y = 0; y < image.height() && !coloured; ++y)
                for (int x = 0; x < image.width() && !coloured; ++x)
                    coloured = qAlpha(image.pixel(x, y)) == 255 &&
                               std::abs(qGreen(image.pixel(x, y)) - look.color(Token::Ink2).green()) <= 2;
            CHECK(coloured);
        }
    }
    CHECK(iconPixmap(u"no-such-icon", Qt::black, 16, 1).isNull());
}

TEST_CASE("Type for paper is measured as it is drawn whatever the printer's dots", "[theme]") {
    QTemporaryDir folder;
    QPdfWriter paper(folder.filePath(u"paper.pdf"_s));
    paper.setResolution(1200);
    const auto look = Look::of(Mode::Light, 1.0, paper.logicalDpiY());
    for (const auto type : {Type::Title, Type::Line, Type::Reading, Type::Caption}) {
        const QFont& font = look.font(type);
        const double onPaper =
            QFontMetricsF(font, &paper).horizontalAdvance(u"Two of the three are the same."_s);
        const double onScreen = QFontMetricsF(font).horizontalAdvance(u"Two of the three are the same."_s);
        CHECK(onPaper == Approx(onScreen).epsilon(0.02));
        CHECK(std::abs(font.pixelSize() - QFontInfo(Look::of(Mode::Light).font(type)).pixelSize()) <= 1);
    }
}

TEST_CASE("A verdict is told by its mark and not by a colour", "[theme]") {
    const auto look = Look::of(Mode::Light);
    std::vector<QImage> drawn;
    using stillroom::tasting::Verdict;
    for (const auto verdict : {Verdict::None, Verdict::Keep, Verdict::Change, Verdict::Drop}) {
        QImage image(60, 40, QImage::Format_Grayscale8);
        image.fill(Qt::white);
        QPainter painter(&image);
        paintVerdict(painter, QPointF(10, 8), u"MK"_s, verdict, look);
        painter.end();
        for (const auto& other : drawn)
            CHECK(image != other);
        drawn.push_back(image);
        CHECK_FALSE(verdictWords(u"MK"_s, verdict).isEmpty());
    }
}

TEST_CASE("An aim holds its ends and one alone is a limit", "[theme]") {
    AimScale scale{0, 10, 3.0, 6.0, 3.0, false, false, std::nullopt};
    CHECK(isInsideAim(scale));
    scale.value = 6.01;
    CHECK_FALSE(isInsideAim(scale));
    scale.aimHigh.reset();
    CHECK(isInsideAim(scale));
    scale.value.reset();
    CHECK_FALSE(isInsideAim(scale));
}

TEST_CASE("A banner says itself to a screen reader and grows with its words", "[theme]") {
    Banner banner;
    banner.resize(400, 40);
    banner.show(BannerKind::Gap, {u"Sugar is a floor."_s, u"The label says nothing."_s, u"Enter it"_s});
    CHECK(banner.accessibleName().contains(u"Sugar is a floor."_s));
    CHECK(banner.accessibleDescription().contains(u"Enter it"_s));
    CHECK(banner.focusPolicy() == Qt::StrongFocus);
    const int before = banner.height();
    banner.show(BannerKind::Gap, {u"Sugar is a floor."_s, u"The label says nothing. "_s.repeated(12), {}});
    CHECK(banner.height() > before);
    CHECK(banner.focusPolicy() == Qt::NoFocus); // nothing to do here
    banner.show(BannerKind::Gap, {});
    CHECK(banner.isHidden());
}
