#include "ui/panels/search/names_edit.h"

#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <QAbstractItemView>
#include <QCompleter>
#include <QKeyEvent>
#include <QPainter>
#include <QStringListModel>

#include <algorithm>

namespace stillroom::ui {

namespace {

constexpr std::size_t kOffered = 8;
constexpr qsizetype kFewestLetters = 2;

QString lastName(const QString& text) {
    return text.mid(text.lastIndexOf(QLatin1Char(',')) + 1).trimmed();
}

} // namespace

NamesEdit::NamesEdit(QWidget* parent)
    : QLineEdit(parent),
      m_names(new QStringListModel(this)),
      m_completer(new QCompleter(m_names, this)) {
    m_completer->setCompletionMode(QCompleter::UnfilteredPopupCompletion);
    m_completer->setWidget(this);
    connect(m_completer, qOverload<const QString&>(&QCompleter::activated), this, &NamesEdit::take);
    connect(this, &QLineEdit::textEdited, this, [this] {
        read();
        offer();
        Q_EMIT changed();
    });
}

void NamesEdit::setLarder(const larder::Larder* larder) {
    m_larder = larder;
    read();
}

void NamesEdit::read() {
    m_ingredients.clear();
    m_problem.clear();
    for (const QString& part : text().split(QLatin1Char(','), Qt::SkipEmptyParts)) {
        const QString name = part.trimmed();
        if (name.isEmpty() || m_larder == nullptr) continue;
        const auto match = m_larder->match(toCore(name));
        if (match.quality != larder::MatchQuality::None && match.quality != larder::MatchQuality::Ambiguous) {
            m_ingredients.push_back(match.ingredient);
            continue;
        }
        if (match.quality == larder::MatchQuality::None) {
            m_problem = tr("Nothing in the larder is called “%1”.").arg(name);
            continue;
        }
        QStringList several;
        for (const auto id : match.alternatives)
            if (const auto* each = m_larder->find(id); each != nullptr && several.size() < 3)
                several << fromCore(each->name);
        m_problem = tr("“%1” may be several: %2.").arg(name, several.join(tr(", ")));
    }
    setAccessibleDescription(m_problem);
    update();
}

std::vector<base::IngredientId> NamesEdit::ingredients() const {
    return m_ingredients;
}

void NamesEdit::setIngredients(const std::vector<base::IngredientId>& ids) {
    QStringList names;
    for (const auto id : ids)
        if (const auto* each = m_larder != nullptr ? m_larder->find(id) : nullptr)
            names << fromCore(each->name);
    setText(names.join(QStringLiteral(", ")));
    read();
    m_ingredients = ids; // also what is no longer in the larder
}

QString NamesEdit::problem() const {
    return m_problem;
}

void NamesEdit::offer() {
    QStringList names;
    const QString typed = lastName(text());
    if (m_larder != nullptr && typed.size() >= kFewestLetters)
        for (const auto id : m_larder->search(toCore(typed), kOffered))
            names << fromCore(m_larder->find(id)->name);
    m_names->setStringList(names);
    if (names.isEmpty() || names.contains(typed, Qt::CaseInsensitive))
        m_completer->popup()->hide();
    else
        m_completer->complete();
}

void NamesEdit::take(const QString& name) {
    const auto before = text().lastIndexOf(QLatin1Char(','));
    setText(before < 0 ? name : QString(text().left(before + 1) + QLatin1Char(' ') + name));
    read();
    Q_EMIT changed();
}

void NamesEdit::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (m_completer->popup()->isVisible() && (enter || event->key() == Qt::Key_Tab)) {
        event->ignore(); // the list's
        return;
    }
    QLineEdit::keyPressEvent(event);
}

void NamesEdit::paintEvent(QPaintEvent* event) {
    QLineEdit::paintEvent(event);
    if (m_problem.isEmpty() || hasFocus()) return;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Look& look = Theme::current().look();
    painter.setPen(look.pen(Token::Error, 2));
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), look.px(3), look.px(3));
}

} // namespace stillroom::ui
