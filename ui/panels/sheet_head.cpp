#include "ui/panels/sheet_head.h"

#include "core/history/lineage.h"
#include "core/store/lineage_of_book.h"
#include "ui/actions/actions.h"
#include "ui/panels/drawing_values.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"
#include "ui/text/words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"
#include "ui/widgets/written_field.h"

#include <QAction>
#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>

#include <cmath>

namespace stillroom::ui {

namespace {

// A title as wide as its text, so that what follows it stands beside it.
class TitleField : public WrittenField {
  public:
    using WrittenField::WrittenField;
    QSize sizeHint() const override {
        const QString shown = text().isEmpty() ? placeholderText() : text();
        return {static_cast<int>(std::ceil(fontMetrics().horizontalAdvance(shown))) +
                    Theme::current().pxInt(14),
                WrittenField::sizeHint().height()};
    }
};

} // namespace

SheetHead::SheetHead(const Actions& actions, QWidget* parent)
    : QWidget(parent),
      m_title(new TitleField(Type::Title, Token::Ink, this)),
      m_brief(new WrittenField(Type::Reason, Token::Ink2, this)),
      m_state(new QLabel(this)),
      m_credit(new WrapLabel(this)),
      m_top(new QHBoxLayout) {
    m_title->setAccessibleName(tr("Name of the drink"));
    m_title->setPlaceholderText(tr("A name for it"));
    m_title->setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Fixed);
    m_brief->setAccessibleName(tr("Brief"));
    m_brief->setPlaceholderText(tr("What it is for: a theme, a place, a gap on the menu"));
    m_state->setTextFormat(Qt::PlainText);

    m_top->addWidget(m_title);
    m_top->addWidget(m_state);
    m_top->addStretch(1);
    for (const auto act : {Act::Taste, Act::Compare}) {
        auto* button = new QToolButton(this);
        button->setDefaultAction(actions.at(act));
        button->setText(Actions::text(act));
        button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
        button->setAutoRaise(true);
        button->setProperty("quiet", true);
        button->setFocusPolicy(Qt::TabFocus);
        m_buttons.push_back(button);
        m_top->addWidget(button);
    }
    auto* keep = new QPushButton(tr("Keep  %1").arg(Actions::keyText(Act::Keep)), this);
    keep->setProperty("act", true);
    keep->setAccessibleName(tr("Keep the draft as a revision"));
    keep->setFocusPolicy(Qt::TabFocus);
    connect(keep, &QPushButton::clicked, actions.at(Act::Keep), &QAction::trigger);
    connect(actions.at(Act::Keep), &QAction::changed, keep,
            [keep, action = actions.at(Act::Keep)] { keep->setEnabled(action->isEnabled()); });
    m_top->addWidget(keep);

    auto* layout = new QVBoxLayout(this);
    layout->setObjectName(QStringLiteral("head"));
    layout->setSpacing(0);
    layout->addLayout(m_top);
    layout->addWidget(m_brief);
    layout->addWidget(m_credit);
    m_credit->setAccessibleName(tr("Where it comes from"));
    m_credit->hide();

    for (auto* field : {m_title, m_brief}) {
        connect(field, &WrittenField::entered, this, [this] {
            if (m_session) m_mergeKey = m_session->newMergeKey();
        });
        connect(field, &QLineEdit::textEdited, this, &SheetHead::write);
    }
    connect(m_title, &QLineEdit::textChanged, this, [this] {
        m_title->updateGeometry();
        giveRoom();
    });
    connect(m_title, &WrittenField::finished, m_brief, [this] { m_brief->setFocus(Qt::TabFocusReason); });
    connect(m_brief, &WrittenField::finished, this, &SheetHead::leaveDown);
    dress();
}

void SheetHead::dress() {
    const auto& theme = Theme::current();
    layout()->setContentsMargins(theme.pxInt(14), theme.pxInt(12), theme.pxInt(16), theme.pxInt(6));
    m_top->setSpacing(theme.pxInt(8));
    m_state->setFont(theme.font(Type::Control));
    m_credit->setFont(theme.font(Type::Caption));
    m_credit->setContentsMargins(theme.pxInt(5), 0, 0, 0);
    m_title->setFixedHeight(static_cast<int>(theme.look().lineHeight(Type::Title)) + theme.pxInt(2));
    m_brief->setFixedHeight(static_cast<int>(theme.look().lineHeight(Type::Reason)) + theme.pxInt(4));
    QPalette quiet = palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink2));
    m_state->setPalette(quiet);
    m_credit->setPalette(quiet);
    giveRoom();
}

// A narrow sheet, or one with a long name, gives its width to the name.
void SheetHead::giveRoom() {
    const auto style = [this](bool narrow) {
        for (auto* button : m_buttons)
            button->setToolButtonStyle(narrow ? Qt::ToolButtonIconOnly : Qt::ToolButtonTextBesideIcon);
    };
    const QMargins margins = layout()->contentsMargins();
    const int room = width() - margins.left() - margins.right();
    style(false);
    int wanted = m_title->sizeHint().width() + m_top->spacing() * (m_top->count() - 1);
    for (int i = 1; i < m_top->count(); ++i)
        wanted += m_top->itemAt(i)->sizeHint().width();
    style(wanted > room);
}

void SheetHead::setSession(DraftSession* session) {
    if (m_session) m_session->disconnect(this);
    m_session = session;
    m_revision.reset();
    m_credited = {}; // the book may say otherwise by now
    if (m_session) {
        connect(m_session, &DraftSession::changed, this, &SheetHead::refresh);
        connect(m_session, &DraftSession::baseChanged, this, &SheetHead::refresh);
    }
    refresh();
}

void SheetHead::showRevision(const history::Revision* revision) {
    m_revision = revision ? std::optional<history::Revision>(*revision) : std::nullopt;
    refresh();
}

void SheetHead::refresh() {
    if (!m_session) return;
    const bool writable = !m_revision && !m_session->book().book().isReadOnly();
    m_title->setReadOnly(!writable);
    m_brief->setReadOnly(!writable);
    m_title->show(fromCore(m_session->now().words.name));
    m_brief->show(fromCore(m_session->now().words.brief));
    const auto form = m_session->drink().form;
    showCredit();
    QString state;
    if (m_revision)
        state = revisionState();
    else if (!m_session->base())
        state = tr("first draft");
    else if (m_session->base()->spec == m_session->spec())
        state = tr("as %1").arg(revisionLabel(form, m_session->base()->number));
    else
        state = tr("draft on %1").arg(revisionLabel(form, m_session->base()->number));
    if (!m_revision && !m_session->draft().name.empty())
        state = tr("“%1”, %2").arg(draftName(m_session->draft()), state);
    if (!m_revision && m_session->draft().setAside) state = tr("set aside: %1").arg(state);
    if (m_state->text() == state) return;
    m_state->setText(state);
    giveRoom();
}

// A card or a print of it would be out of date.
QString SheetHead::revisionState() const {
    const QString kept = tr("%1 as it was, kept %2")
                             .arg(revisionLabel(m_session->drink().form, m_revision->number),
                                  dayText(m_revision->kept, m_session->book().clock().now()));
    const auto& drink = m_session->drink();
    if (!history::isStale(drink, m_revision->id)) return kept;
    const auto current = m_session->book().book().revision(*history::currentRevision(drink));
    if (!current) return kept;
    return (drink.published ? tr("%1; readers have %2") : tr("%1; the bar pours %2"))
        .arg(kept, revisionLabel(drink.form, current->number));
}

QString SheetHead::credit() const {
    return m_credit->isHidden() ? QString() : m_credit->text();
}

void SheetHead::showCredit() {
    history::Drink drink = m_session->drink();
    drink.after = m_session->now().words.after;
    drink.credit = m_session->now().words.credit;
    const bool known =
        m_credited.id == drink.id && m_credited.after == drink.after && m_credited.credit == drink.credit;
    if (known) return;
    m_credited = drink;
    QString said;
    try {
        const auto& book = m_session->book().book();
        said = fromCore(store::creditOf(book, drink));
        if (const int now = store::movedOnTo(book, drink); now > 0) {
            const auto from = book.drink(*drink.after.drink);
            said += tr(" (that one has moved on to %1)")
                        .arg(revisionLabel(from ? from->form : history::DrinkForm::Drink, now));
        }
    } catch (const store::StoreError& error) {
        said = storeErrorSentence(error).fact;
    }
    m_credit->setText(said);
    m_credit->setVisible(!said.isEmpty());
    updateGeometry();
}

void SheetHead::write() {
    if (!m_session || m_revision) return;
    DrinkWords words = m_session->now().words;
    words.name = toCore(m_title->text());
    words.brief = toCore(m_brief->text());
    m_session->applyWords(std::move(words), tr("Name and brief"), m_mergeKey, this);
}

void SheetHead::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    dress();
}

void SheetHead::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
