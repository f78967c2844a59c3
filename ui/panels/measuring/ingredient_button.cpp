#include "ui/panels/measuring/ingredient_button.h"

#include "core/larder/handbook.h"
#include "ui/dialogs/pick_dialog.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/theme/theme.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

namespace stillroom::ui {

IngredientButton::IngredientButton(const QString& words, QWidget* parent)
    : QWidget(parent),
      m_words(words),
      m_label(new QLabel(words, this)),
      m_button(new QPushButton(this)) {
    m_words.remove(QLatin1Char('&'));
    m_label->setBuddy(m_button);
    m_button->setAutoDefault(true); // Enter opens it
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(m_label);
    row->addWidget(m_button);
    row->addStretch(1);
    connect(m_button, &QPushButton::clicked, this, &IngredientButton::open);
    dress();
    refresh();
}

void IngredientButton::setLarder(const larder::Larder* larder,
                                 std::function<bool(const larder::Ingredient&)> offered) {
    m_larder = larder;
    m_offered = std::move(offered);
    refresh();
}

void IngredientButton::choose(std::optional<base::IngredientId> ingredient) {
    m_chosen = ingredient;
    refresh();
}

void IngredientButton::refresh() {
    const auto* known = m_larder && m_chosen ? m_larder->find(*m_chosen) : nullptr;
    const QString name = known ? fromCore(known->name) : tr("choose…");
    QString shown = m_button->fontMetrics().elidedText(name, Qt::ElideRight, Theme::current().pxInt(300));
    shown.replace(QLatin1Char('&'), QStringLiteral("&&")); // no mnemonic of a name
    m_button->setText(shown);
    m_button->setToolTip(shown == name ? QString() : name);
    m_button->setAccessibleName(QStringLiteral("%1: %2").arg(m_words, name));
}

QString IngredientButton::asText() const {
    return m_button->accessibleName();
}

void IngredientButton::open() {
    if (m_larder == nullptr) return;
    std::vector<PickRow> rows;
    std::vector<base::IngredientId> ids;
    for (const auto* each : m_larder->all()) {
        if (m_offered && !m_offered(*each)) continue;
        PickRow row;
        row.title = fromCore(each->name);
        row.aside = sortWord(*each, each == larder::Handbook::builtIn().find(each->id));
        row.current = m_chosen == each->id;
        rows.push_back(std::move(row));
        ids.push_back(each->id);
    }
    auto* dialog = new PickDialog(m_words, {}, std::move(rows), window());
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &PickDialog::picked, this, [this, ids = std::move(ids)](int row) {
        choose(ids[static_cast<std::size_t>(row)]);
        Q_EMIT picked(*m_chosen);
    });
    dialog->open();
}

void IngredientButton::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void IngredientButton::dress() {
    const auto& theme = Theme::current();
    layout()->setSpacing(theme.pxInt(10));
    m_label->setFont(theme.font(Type::Control));
    m_label->setFixedWidth(theme.pxInt(240));
    m_button->setFont(theme.font(Type::Control));
    refresh();
}

} // namespace stillroom::ui
