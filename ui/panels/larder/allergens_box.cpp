#include "ui/panels/larder/allergens_box.h"

#include "core/larder/allergens.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/text/words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QCheckBox>
#include <QEvent>
#include <QGridLayout>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

AllergensBox::AllergensBox(QWidget* parent)
    : QWidget(parent),
      m_sentence(new WrapLabel(this)),
      m_stated(new QCheckBox(tr("S&omebody has said what is in it"), this)),
      m_grid(new QGridLayout) {
    setAccessibleName(tr("Allergens"));
    for (const auto& each : larder::euAllergenClasses()) {
        const QString id = fromCore(each.id);
        auto* box = new QCheckBox(allergenName(id), this);
        box->setObjectName(id);
        const auto us = larder::usClassOf(each.id);
        const QString name = fromCore(each.name);
        box->setToolTip(us ? tr("%1. US list: %2%3.")
                                 .arg(name, allergenName(fromCore(us->id)),
                                      us->certain ? QString() : tr(", where it is that cereal"))
                           : tr("%1. The US list names none.").arg(name));
        connect(box, &QCheckBox::clicked, this, [this] {
            m_stated->setChecked(true);
            take();
        });
        m_boxes.push_back(box);
    }
    connect(m_stated, &QCheckBox::clicked, this, &AllergensBox::take);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(m_sentence);
    column->addWidget(m_stated);
    column->addLayout(m_grid);
    layOut();
    dress();
}

void AllergensBox::setEdit(LarderEdit* edit) {
    m_edit = edit;
    if (edit != nullptr) {
        connect(edit, &LarderEdit::changed, this, &AllergensBox::fill);
        connect(edit, &LarderEdit::chosenChanged, this, &AllergensBox::fill);
    }
    fill();
}

QString AllergensBox::sentence() const {
    return m_sentence->text();
}

QCheckBox* AllergensBox::box(const QString& id) const {
    for (auto* each : m_boxes)
        if (each->objectName() == id) return each;
    return nullptr;
}

void AllergensBox::fill() {
    if (m_edit == nullptr || !m_edit->hasChosen()) return;
    m_filling = true;
    const auto& facts = m_edit->now().facts;
    m_sentence->setText(allergenSentence(facts));
    m_stated->setChecked(facts.allergens.has_value());
    for (auto* box : m_boxes) {
        box->setChecked(facts.allergens && std::find(facts.allergens->begin(), facts.allergens->end(),
                                                     toCore(box->objectName())) != facts.allergens->end());
        box->setEnabled(!m_edit->isMade());
    }
    m_stated->setEnabled(!m_edit->isMade());
    m_filling = false;
}

// What a person wrote beyond the list stays.
void AllergensBox::take() {
    if (m_filling || m_edit == nullptr || !m_edit->hasChosen()) return;
    larder::Ingredient next = m_edit->now();
    if (!m_stated->isChecked()) {
        next.facts.allergens.reset();
        m_edit->set(std::move(next));
        return;
    }
    std::vector<std::string> said;
    for (const auto* box : m_boxes)
        if (box->isChecked()) said.push_back(toCore(box->objectName()));
    if (next.facts.allergens)
        for (const auto& other : *next.facts.allergens)
            if (box(fromCore(other)) == nullptr) said.push_back(other);
    next.facts.allergens = std::move(said);
    m_edit->set(std::move(next));
}

void AllergensBox::layOut() {
    const int columns = std::clamp(width() / Theme::current().pxInt(118), 3, 7);
    if (columns == m_columns) return;
    m_columns = columns;
    for (auto* box : m_boxes)
        m_grid->removeWidget(box);
    for (std::size_t i = 0; i < m_boxes.size(); ++i)
        m_grid->addWidget(m_boxes[i], static_cast<int>(i) / columns, static_cast<int>(i) % columns);
}

void AllergensBox::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    layOut();
}

void AllergensBox::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void AllergensBox::dress() {
    const auto& theme = Theme::current();
    m_sentence->setFont(theme.font(Type::Control));
    m_sentence->setForegroundRole(QPalette::WindowText);
    QPalette ink = palette();
    ink.setColor(QPalette::WindowText, theme.color(Token::Ink));
    m_sentence->setPalette(ink);
    m_grid->setHorizontalSpacing(theme.pxInt(8));
    m_grid->setVerticalSpacing(theme.pxInt(2));
    layout()->setSpacing(theme.pxInt(4));
}

} // namespace stillroom::ui
