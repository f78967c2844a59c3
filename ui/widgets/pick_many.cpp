#include "ui/widgets/pick_many.h"

#include "ui/plots/plot_text.h"
#include "ui/theme/theme.h"

#include <QKeyEvent>
#include <QMenu>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <QStyleOptionButton>

#include <algorithm>

namespace stillroom::ui {

namespace {

class StayingMenu : public QMenu {
  public:
    using QMenu::QMenu;

  protected:
    void mouseReleaseEvent(QMouseEvent* event) override {
        if (auto* action = actionAt(event->position().toPoint()))
            action->trigger();
        else
            QMenu::mouseReleaseEvent(event);
    }
    void keyPressEvent(QKeyEvent* event) override {
        if (event->key() == Qt::Key_Space && activeAction() != nullptr)
            activeAction()->trigger();
        else if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
            close();
        else
            QMenu::keyPressEvent(event);
    }
};

} // namespace

PickMany::PickMany(const QString& name, const QString& none, QWidget* parent)
    : QPushButton(parent),
      m_none(none),
      m_menu(new StayingMenu(this)) {
    setObjectName(name);
    setAccessibleName(name);
    setAutoDefault(false);
    setFocusPolicy(Qt::StrongFocus);
    connect(this, &QPushButton::clicked, this, &PickMany::open);
    say();
}

void PickMany::setChoices(const std::vector<Choice>& choices) {
    const QStringList before = chosen();
    m_menu->clear();
    for (const auto& choice : choices) {
        auto* action = m_menu->addAction(choice.words);
        action->setCheckable(true);
        action->setData(choice.id);
        connect(action, &QAction::triggered, this, [this] {
            say();
            Q_EMIT changed();
        });
    }
    setChosen(before);
}

QStringList PickMany::chosen() const {
    QStringList ids;
    for (const auto* action : m_menu->actions())
        if (action->isChecked()) ids << action->data().toString();
    return ids;
}

void PickMany::setChosen(const QStringList& ids) {
    for (auto* action : m_menu->actions())
        action->setChecked(ids.contains(action->data().toString()));
    say();
}

void PickMany::say() {
    QStringList words;
    for (const auto* action : m_menu->actions())
        if (action->isChecked()) words << action->text();
    m_said = words.isEmpty() ? m_none : words.join(QStringLiteral(", "));
    setAccessibleDescription(m_said);
    setToolTip(words.isEmpty() ? QString() : m_said);
    update();
}

void PickMany::open() {
    if (m_menu->actions().isEmpty()) return;
    m_menu->setMinimumWidth(width());
    m_menu->setActiveAction(m_menu->actions().front());
    m_menu->popup(mapToGlobal(QPoint(0, height())));
    m_menu->setActiveAction(m_menu->actions().front());
}

void PickMany::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Down)
        open();
    else
        QPushButton::keyPressEvent(event);
}

QSize PickMany::sizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(150), theme.pxInt(26)};
}

QSize PickMany::minimumSizeHint() const {
    return {Theme::current().pxInt(60), sizeHint().height()};
}

void PickMany::paintEvent(QPaintEvent* event) {
    QPushButton::paintEvent(event); // without a text of its own: frame and focus
    const auto& look = Theme::current().look();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const double right = width() - look.px(22);
    drawLabel(painter, QPointF(look.px(8), height() / 2.0), Stand::Left, m_said, Type::Control,
              chosen().isEmpty() ? Token::Ink2 : Token::Ink, look, right - look.px(8));
    QPainterPath arrow;
    const double y = height() / 2.0 - look.px(1.5);
    arrow.moveTo(right + look.px(4), y);
    arrow.lineTo(right + look.px(8), y + look.px(4));
    arrow.lineTo(right + look.px(12), y);
    painter.setPen(look.pen(Token::Ink2, 1.5));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(arrow);
}

} // namespace stillroom::ui
