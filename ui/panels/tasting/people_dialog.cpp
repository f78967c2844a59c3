#include "ui/panels/tasting/people_dialog.h"

#include "ui/text/border.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QDialogButtonBox>
#include <QGridLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

PeopleDialog::PeopleDialog(const std::vector<tasting::Person>& people, QWidget* parent) : QDialog(parent) {
    const auto& theme = Theme::current();
    setWindowTitle(u"Tasters"_s);
    auto* about = new WrapLabel;
    about->setWordWrap(true);
    auto* inside = new QWidget;
    auto* grid = new QGridLayout(inside);
    grid->setContentsMargins(2, 2, theme.pxInt(6), 2);
    grid->setColumnStretch(1, 1);
    for (const auto& person : people)
        if (!person.initials.empty() || !person.name.empty()) addRow(person, inside);
    grid->setRowStretch(static_cast<int>(m_rows.size()), 1);
    about->setText(m_rows.empty()
                       ? u"Nobody has tasted anything yet. Whoever signs a tasting stands here."_s
                       : u"Initials and names. Whoever is removed leaves no name in the book; what they "
                         "tasted stays, unsigned."_s);
    auto* scroll = new QScrollArea;
    scroll->setWidget(inside);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    m_note = new WrapLabel;
    m_note->setWordWrap(true);
    auto* buttons = new QDialogButtonBox;
    m_save = buttons->addButton(u"&Save"_s, QDialogButtonBox::AcceptRole);
    m_save->setProperty("act", true);
    m_save->setDefault(true);
    auto* leave = buttons->addButton(u"&Leave it"_s, QDialogButtonBox::RejectRole);
    leave->setAutoDefault(false);
    connect(buttons, &QDialogButtonBox::accepted, this, &PeopleDialog::save);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(theme.pxInt(20), theme.pxInt(16), theme.pxInt(20), theme.pxInt(16));
    column->addWidget(about);
    column->addSpacing(theme.pxInt(8));
    column->addWidget(scroll, 1);
    column->addWidget(m_note);
    column->addWidget(buttons);
    resize(theme.pxInt(520), theme.pxInt(380));
    check();
    if (!m_rows.empty()) m_rows.front().initials->setFocus();
}

void PeopleDialog::addRow(const tasting::Person& person, QWidget* into) {
    const auto index = m_rows.size();
    const auto shown = fromCore(person.name.empty() ? person.initials : person.name);
    Row row;
    row.person = person;
    row.initials = new QLineEdit(fromCore(person.initials));
    row.initials->setAccessibleName(u"Initials of %1"_s.arg(shown));
    row.initials->setMaxLength(12);
    row.initials->setFixedWidth(Theme::current().pxInt(72));
    row.name = new QLineEdit(fromCore(person.name));
    row.name->setAccessibleName(u"Name of %1"_s.arg(shown));
    row.name->setMaxLength(200);
    row.remove = new QPushButton(u"Remove"_s);
    row.remove->setAutoDefault(false);
    row.remove->setAccessibleName(u"Remove %1"_s.arg(shown));
    auto* grid = qobject_cast<QGridLayout*>(into->layout());
    const int at = static_cast<int>(index);
    grid->addWidget(row.initials, at, 0);
    grid->addWidget(row.name, at, 1);
    grid->addWidget(row.remove, at, 2);
    connect(row.initials, &QLineEdit::textChanged, this, &PeopleDialog::check);
    connect(row.name, &QLineEdit::textChanged, this, &PeopleDialog::check);
    connect(row.remove, &QPushButton::clicked, this, [this, index] { toggleGone(index); });
    m_rows.push_back(row);
}

void PeopleDialog::toggleGone(std::size_t index) {
    auto& row = m_rows[index];
    row.gone = !row.gone;
    for (auto* field : {row.initials, row.name}) {
        field->setEnabled(!row.gone);
        auto font = field->font();
        font.setStrikeOut(row.gone);
        field->setFont(font);
    }
    row.remove->setText(row.gone ? u"Keep"_s : u"Remove"_s);
    check();
}

QString PeopleDialog::note() const {
    return m_note->text();
}

void PeopleDialog::check() {
    QString why;
    QString gone;
    QStringList taken;
    for (const auto& row : m_rows) {
        if (row.gone) {
            const auto& who = row.person.name.empty() ? row.person.initials : row.person.name;
            gone += (gone.isEmpty() ? QString() : u", "_s) + fromCore(who);
            continue;
        }
        const auto initials = row.initials->text().simplified();
        if (initials.isEmpty()) why = u"Somebody has no initials."_s;
        for (const auto& other : taken)
            if (other.compare(initials, Qt::CaseInsensitive) == 0)
                why = u"Two people have the initials %1."_s.arg(initials);
        taken << initials;
    }
    m_save->setEnabled(why.isEmpty() && !m_rows.empty());
    if (why.isEmpty() && !gone.isEmpty())
        why = u"Saving takes the name of %1 out of the book. That cannot be undone."_s.arg(gone);
    m_note->setText(why);
}

void PeopleDialog::save() {
    if (!m_save->isEnabled()) return;
    std::vector<tasting::Person> renamed;
    std::vector<base::PersonId> removed;
    for (const auto& row : m_rows) {
        if (row.gone) {
            removed.push_back(row.person.id);
            continue;
        }
        auto now = row.person;
        now.initials = toCore(row.initials->text().simplified());
        now.name = toCore(row.name->text().simplified());
        if (!(now == row.person)) renamed.push_back(std::move(now));
    }
    Q_EMIT saveAsked(renamed, removed);
    accept();
}

} // namespace stillroom::ui
