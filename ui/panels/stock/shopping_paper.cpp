#include "ui/panels/stock/shopping_paper.h"

#include "core/exchange/shopping_text.h"
#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <QFontInfo>
#include <QPrinter>
#include <QTextDocument>

#include <array>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

class Paper {
  public:
    Paper(const preparation::ShoppingList& list, const larder::Larder& larder, const Look& look)
        : m_list(list),
          m_larder(larder),
          m_look(look) {}

    QString html() {
        for (const auto& group : m_list.groups)
            supplier(group);
        totals();
        if (!m_list.toMake.empty()) {
            heading(u"To make"_s);
            m_html += u"<table width=\"100%\" style=\"margin-bottom:6px\">"_s;
            for (auto made = m_list.toMake.rbegin(); made != m_list.toMake.rend(); ++made)
                row(name(made->ingredient), fromCore(exchange::boughtAmountText(made->needed)),
                    u"%1 batches"_s.arg(QString::number(std::ceil(made->batches * 100) / 100, 'g', 6)), {});
            m_html += u"</table>"_s;
        }
        if (!m_list.covered.empty()) {
            heading(u"Enough on the shelf"_s);
            m_html += u"<table width=\"100%\" style=\"margin-bottom:6px\">"_s;
            for (std::size_t i = 0; i < m_list.covered.size(); ++i)
                row(name(m_list.coveredBy[i]), fromCore(exchange::boughtAmountText(m_list.covered[i])), {},
                    {});
            m_html += u"</table>"_s;
        }
        names(u"There, but nobody counted it"_s, m_list.notCounted);
        names(u"Off until further notice"_s, m_list.off);
        open();
        if (m_list.circle) names(u"Made of each other, so not counted down"_s, m_list.circle->path);
        return m_html;
    }

  private:
    QString name(base::IngredientId id) const {
        const auto* known = m_larder.find(id);
        return (known != nullptr ? fromCore(known->name) : u"?"_s).toHtmlEscaped();
    }
    QString style(Type type, Token token) const {
        const QFont& font = m_look.font(type);
        return u"font-family:'%1';font-size:%2px;font-weight:%3;color:%4"_s.arg(
            font.family(), QString::number(QFontInfo(font).pixelSize()), QString::number(font.weight()),
            m_look.color(token).name());
    }
    void heading(const QString& text) {
        m_html += u"<p style=\"%1;margin-top:%3px;margin-bottom:2px\">%2</p>"_s
                      .arg(style(Type::Heading, Token::Ink), text.toHtmlEscaped())
                      .arg(m_html.isEmpty() ? 0 : m_look.pxInt(12));
    }
    // The same columns in every table, so that numbers stand under each other down the page.
    void row(const QString& what, const QString& amount, const QString& packs, const QString& price) {
        m_html += u"<tr><td style=\"%1;vertical-align:middle\" width=\"34%\">%2</td>"_s.arg(
            style(Type::Line, Token::Ink), what);
        const std::array<std::pair<const QString*, int>, 3> cells{
            {{&amount, 16}, {&packs, 28}, {&price, 22}}};
        for (const auto& [cell, width] : cells)
            m_html += u"<td align=\"right\" width=\"%3%\" style=\"%1;vertical-align:middle\">%2</td>"_s
                          .arg(style(Type::Reading, Token::Ink), cell->toHtmlEscaped())
                          .arg(width);
        m_html += u"</tr>"_s;
    }
    void supplier(const preparation::SupplierGroup& group) {
        const bool alone = m_list.groups.size() == 1 && group.supplier.empty();
        heading(group.supplier.empty() ? alone ? u"To buy"_s : u"No supplier on record"_s
                                       : fromCore(group.supplier));
        m_html += u"<table width=\"100%\" style=\"margin-bottom:6px\">"_s;
        for (const auto& item : group.items) {
            QString amount = fromCore(exchange::boughtAmountText({item.toBuy, item.needed.unit}));
            if (item.withMargin) amount += u" *"_s;
            QString packs = u"no pack on record"_s;
            if (item.unitUnclear) packs = u"pack in another unit"_s;
            if (item.pack)
                packs = u"%1 × %2"_s.arg(item.packs).arg(fromCore(exchange::packSizeText(*item.pack)));
            m_withMargin |= item.withMargin;
            row(name(item.ingredient), amount, packs,
                item.price ? fromCore(item.price->text()) + u' ' + fromCore(item.price->currency.text())
                           : QString());
        }
        m_html += u"</table>"_s;
    }
    void totals() {
        for (const auto& [currency, minor] : m_list.totals)
            m_html += u"<p align=\"right\" style=\"%1;margin-top:6px\">together %2 %3</p>"_s.arg(
                style(Type::ReadingServed, Token::Ink), fromCore(quantity::Money{minor, currency}.text()),
                fromCore(currency.text()));
        if (m_withMargin) note(u"* with a margin: fruit gives more or less juice"_s);
    }
    void note(const QString& text) {
        m_html += u"<p style=\"%1;margin-top:4px\">%2</p>"_s.arg(style(Type::Caption, Token::Ink2),
                                                                 text.toHtmlEscaped());
    }
    void names(const QString& title, const std::vector<base::IngredientId>& ids) {
        if (ids.empty()) return;
        heading(title);
        QStringList all;
        for (const base::IngredientId id : ids)
            all << name(id);
        m_html +=
            u"<p style=\"%1;margin-top:0px\">%2</p>"_s.arg(style(Type::Line, Token::Ink), all.join(u", "_s));
    }
    void open() {
        if (m_list.open.empty()) return;
        heading(u"Without an amount: look yourself"_s);
        QStringList all;
        for (const auto& each : m_list.open)
            if (const QString one = fromCore(each.name).toHtmlEscaped(); !all.contains(one)) all << one;
        m_html +=
            u"<p style=\"%1;margin-top:0px\">%2</p>"_s.arg(style(Type::Line, Token::Ink), all.join(u", "_s));
    }

    const preparation::ShoppingList& m_list;
    const larder::Larder& m_larder;
    const Look& m_look;
    QString m_html;
    bool m_withMargin = false;
};

} // namespace

QString shoppingHtml(const preparation::ShoppingList& list, const larder::Larder& larder, const Look& look) {
    return Paper(list, larder, look).html();
}

bool printShopping(const preparation::ShoppingList& list, const larder::Larder& larder, const QString& title,
                   QPrinter& printer) {
    const Look look = Look::of(Mode::Light);
    QTextDocument document;
    document.setHtml(u"<h2 style=\"font-family:'%1'\">%2</h2>"_s.arg(look.font(Type::Title).family(),
                                                                     title.toHtmlEscaped()) +
                     shoppingHtml(list, larder, look));
    document.print(&printer);
    return printer.printerState() != QPrinter::Error;
}

} // namespace stillroom::ui
