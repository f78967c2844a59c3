#include "ui/panels/lineage/lineage_dialog.h"

#include "core/base/text.h"
#include "core/store/lineage_of_book.h"
#include "ui/dialogs/pick_dialog.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr int kLongest = 400;

void setInk(QWidget* widget, Token token) {
    auto palette = widget->palette();
    palette.setColor(QPalette::WindowText, Theme::current().color(token));
    widget->setPalette(palette);
}

// As written and in that order; the same tag in other letters is the same tag.
std::vector<std::string> tagsOf(const QString& text) {
    std::vector<std::string> tags;
    for (const QString& part : text.split(u',', Qt::SkipEmptyParts)) {
        const std::string tag = toCore(part.simplified());
        const bool known = std::any_of(tags.begin(), tags.end(), [&](const std::string& each) {
            return base::fold(each) == base::fold(tag);
        });
        if (!tag.empty() && !known) tags.push_back(tag);
    }
    return tags;
}

QString joined(const std::vector<std::string>& tags) {
    QStringList list;
    for (const auto& tag : tags)
        list << fromCore(tag);
    return list.join(u", "_s);
}

// What it has changed since the revision it came after, and what came after it in turn. Throws StoreError.
QString lineInWords(const store::Workbook& book, base::DrinkId drink) {
    constexpr std::size_t kMostTold = 6;
    QStringList lines;
    if (const auto own = book.drink(drink))
        if (const auto changed = store::changedSince(book, *own); !changed.empty())
            lines << QObject::tr("Changed since: %1").arg(fromCore(changed));
    const auto after = store::cameAfter(book, drink);
    for (std::size_t i = 0; i < std::min(after.size(), kMostTold); ++i) {
        const auto& one = after[i];
        QString text = one.name.empty() ? QObject::tr("no name yet") : fromCore(one.name);
        if (one.revision > 0) text += QObject::tr(", after r%1").arg(one.revision);
        if (!one.changed.empty()) text += u": "_s + fromCore(one.changed);
        lines << QObject::tr("Came after it: %1").arg(text);
    }
    if (after.size() > kMostTold)
        lines << QObject::tr("And %1 more came after it.").arg(after.size() - kMostTold);
    return lines.join(u'\n');
}

} // namespace

LineageDialog::LineageDialog(WorkbookSession& book, base::DrinkId drink, const DrinkWords& words,
                             QWidget* parent)
    : QDialog(parent),
      m_book(book),
      m_drink(drink),
      m_words(words),
      m_choose(new QPushButton),
      m_none(new QPushButton(tr("N&one"))),
      m_revision(new QComboBox),
      m_person(new QLineEdit),
      m_place(new QLineEdit),
      m_year(new QLineEdit),
      m_work(new QLineEdit),
      m_thanks(new QLineEdit),
      m_tags(new QLineEdit),
      m_printed(new WrapLabel),
      m_problem(new WrapLabel) {
    const auto& theme = Theme::current();
    setWindowTitle(tr("Where it comes from"));
    auto* title = new QLabel(tr("Where it comes from"));
    title->setFont(theme.font(Type::Title));
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(theme.pxInt(12));
    grid->setVerticalSpacing(theme.pxInt(6));
    const auto heading = [&](const QString& text) {
        auto* label = new QLabel(text);
        label->setFont(theme.font(Type::Heading));
        setInk(label, Token::Ink2);
        grid->addWidget(label, grid->rowCount(), 0, 1, 2);
    };
    const auto row = [&](const QString& caption, QWidget* field, const QString& name) {
        auto* label = new QLabel(caption);
        label->setBuddy(field);
        field->setAccessibleName(name);
        const int at = grid->rowCount();
        grid->addWidget(label, at, 0, Qt::AlignLeft | Qt::AlignVCenter);
        return at;
    };
    const auto line = [&](const QString& caption, QLineEdit* field, const QString& name, const QString& value,
                          const QString& example) {
        const int at = row(caption, field, name);
        field->setMaxLength(kLongest);
        field->setText(value);
        field->setPlaceholderText(example);
        grid->addWidget(field, at, 1);
        connect(field, &QLineEdit::textChanged, this, [this] { tell(); });
    };
    heading(tr("After a drink of this book"));
    auto* both = new QHBoxLayout;
    both->setSpacing(theme.pxInt(8));
    both->addWidget(m_choose, 1);
    both->addWidget(m_none);
    grid->addLayout(both, row(tr("&Drink"), m_choose, tr("The drink it comes after")), 1);
    m_none->setAccessibleName(tr("After no drink of this book"));
    grid->addWidget(m_revision, row(tr("&Revision"), m_revision, tr("Which revision of it")), 1);
    heading(tr("After something from outside"));
    const auto& source = words.after.source;
    line(tr("&Person"), m_person, tr("Person"), fromCore(source.person), tr("whose idea it was"));
    line(tr("P&lace"), m_place, tr("Place"), fromCore(source.place), tr("bar, house or town"));
    line(tr("&Year"), m_year, tr("Year"), fromCore(source.year), tr("1931, or around then"));
    line(tr("&Work"), m_work, tr("Work"), fromCore(source.work), tr("book, page, video"));
    heading(tr("Thanks, and what it is found by"));
    line(tr("&Thanks"), m_thanks, tr("Thanks, in your words"), fromCore(words.credit),
         tr("with thanks to the morning shift"));
    line(tr("T&ags"), m_tags, tr("Tags, with commas"), joined(words.tags), tr("winter, low strength"));
    grid->setColumnStretch(1, 1);

    auto* buttons = new QDialogButtonBox;
    auto* save = buttons->addButton(tr("Save"), QDialogButtonBox::AcceptRole);
    save->setProperty("act", true);
    save->setDefault(true);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    for (auto* button : {m_choose, m_none})
        button->setAutoDefault(false);
    connect(buttons, &QDialogButtonBox::accepted, this, [this] {
        const auto next = this->words();
        accept();
        Q_EMIT saveAsked(next);
    });
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_choose, &QPushButton::clicked, this, &LineageDialog::pick);
    connect(m_none, &QPushButton::clicked, this, [this] {
        m_words.after.drink.reset();
        m_words.after.revision.reset();
        fillRevisions();
        m_choose->setFocus();
    });
    connect(m_revision, &QComboBox::activated, this, [this](int index) {
        m_words.after.revision =
            index <= 0 ? std::nullopt : std::optional(m_revisions[static_cast<std::size_t>(index - 1)]);
        tell();
    });

    m_printed->setFont(theme.font(Type::Reason));
    m_problem->setFont(theme.font(Type::Control));
    setInk(m_problem, Token::Error);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(theme.pxInt(20), theme.pxInt(16), theme.pxInt(20), theme.pxInt(16));
    column->setSpacing(theme.pxInt(8));
    column->addWidget(title);
    column->addLayout(grid);
    column->addWidget(m_problem);
    column->addWidget(m_printed);
    auto* told = new WrapLabel;
    told->setObjectName(u"lineOfDrinks"_s);
    told->setFont(theme.font(Type::Control));
    column->addWidget(told);
    column->addStretch(1);
    column->addWidget(buttons);
    setMinimumWidth(theme.pxInt(500));
    fillRevisions();
    try {
        told->setText(lineInWords(book.book(), drink));
        told->setVisible(!told->text().isEmpty());
    } catch (const store::StoreError& error) {
        tell(storeErrorSentence(error).fact);
    }
    m_choose->setFocus();
}

DrinkWords LineageDialog::words() const {
    auto next = m_words;
    const auto text = [](const QLineEdit* field) { return toCore(field->text().trimmed()); };
    next.after.source = {text(m_person), text(m_place), text(m_year), text(m_work)};
    next.credit = text(m_thanks);
    next.tags = tagsOf(m_tags->text());
    return next;
}

QString LineageDialog::printed() const {
    return m_printed->text();
}

void LineageDialog::tell(const QString& problem) {
    m_problem->setText(problem);
    m_problem->setVisible(!problem.isEmpty());
    history::Drink drink;
    const auto next = words();
    drink.after = next.after;
    drink.credit = next.credit;
    QString credit;
    try {
        credit = fromCore(store::creditOf(m_book.book(), drink));
    } catch (const store::StoreError& error) {
        m_problem->setText(storeErrorSentence(error).fact);
        m_problem->show();
    }
    m_printed->setText(credit.isEmpty() ? tr("Nothing stands under the name on cards and prints.")
                                        : tr("On cards and prints: %1").arg(credit));
}

void LineageDialog::fillRevisions() {
    m_revisions.clear();
    m_revision->clear();
    m_revision->addItem(tr("the drink as a whole"));
    const auto& after = m_words.after;
    const auto* summary = after.drink ? m_book.summary(*after.drink) : nullptr;
    if (after.drink) {
        const auto form = summary ? summary->form : history::DrinkForm::Drink;
        try {
            auto revisions = m_book.book().revisions(*after.drink);
            std::reverse(revisions.begin(), revisions.end());
            for (const auto& revision : revisions) {
                m_revisions.push_back(revision.id);
                QString words = revisionLabel(form, revision.number);
                if (!revision.reason.empty()) words += u": "_s + fromCore(revision.reason);
                m_revision->addItem(words);
                if (after.revision == revision.id) m_revision->setCurrentIndex(m_revision->count() - 1);
            }
        } catch (const store::StoreError& error) {
            tell(storeErrorSentence(error).fact);
            return;
        }
    }
    m_revision->setEnabled(!m_revisions.empty());
    m_revision->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_none->setEnabled(after.drink.has_value());
    QString name = !after.drink ? tr("Choose a drink…")
                   : summary    ? fromCore(summary->name)
                                : tr("another drink");
    if (after.drink && name.isEmpty()) name = tr("no name yet");
    m_choose->setText(name.replace(u'&', u"&&"_s));
    tell();
}

void LineageDialog::pick() {
    std::vector<base::DrinkId> drinks;
    std::vector<PickRow> rows;
    for (const auto& summary : m_book.shelf()) {
        if (summary.binned || summary.id == m_drink) continue;
        drinks.push_back(summary.id);
        PickRow row;
        row.title = summary.name.empty() ? tr("no name yet") : fromCore(summary.name);
        row.aside = fromCore(summary.menuName);
        row.current = m_words.after.drink == summary.id;
        rows.push_back(std::move(row));
    }
    auto* dialog = new PickDialog(tr("After which drink?"), {}, std::move(rows), this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &PickDialog::picked, this,
            [this, drinks = std::move(drinks)](int row) { take(drinks[static_cast<std::size_t>(row)]); });
    dialog->open();
}

void LineageDialog::take(base::DrinkId drink) {
    try {
        if (store::comesAfter(m_book.book(), drink, m_drink)) {
            const auto* summary = m_book.summary(drink);
            tell(tr("%1 comes after this one already, so this cannot come after it.")
                     .arg(summary ? fromCore(summary->name) : tr("That drink")));
            return;
        }
    } catch (const store::StoreError& error) {
        tell(storeErrorSentence(error).fact);
        return;
    }
    m_words.after.drink = drink;
    m_words.after.revision.reset();
    fillRevisions();
    m_revision->setFocus();
}

} // namespace stillroom::ui
