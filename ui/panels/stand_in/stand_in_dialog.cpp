#include "ui/panels/stand_in/stand_in_dialog.h"

#include "core/base/text.h"
#include "core/larder/handbook.h"
#include "ui/delegates/title_delegate.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/difference_text.h"
#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"
#include "ui/text/words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <array>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using preparation::Keep;
using preparation::SubstituteProblem;
using spec::Quantity;

namespace {

constexpr std::array kShown{Quantity::Strength, Quantity::Volume, Quantity::Sugar, Quantity::Acid,
                            Quantity::Cost};
enum Column { Name, Now, Then, Difference, Unit, ColumnCount };

QString keepWord(Keep keep) {
    switch (keep) {
    case Keep::Sugar:
        return StandInDialog::tr("as much sugar");
    case Keep::Sweetness:
        return StandInDialog::tr("as sweet to the taste");
    case Keep::Ethanol:
        return StandInDialog::tr("as much alcohol");
    case Keep::Acid:
        return StandInDialog::tr("as much acid");
    }
    return {};
}

QString problemSentence(SubstituteProblem problem) {
    switch (problem) {
    case SubstituteProblem::NoSuchLine:
    case SubstituteProblem::NoSuchIngredient:
        return StandInDialog::tr("It is no longer there.");
    case SubstituteProblem::NoAmount:
        return StandInDialog::tr(
            "The line states no amount that can be turned into ml or g. Write one first.");
    case SubstituteProblem::FactUnknown:
        return StandInDialog::tr("Nobody knows how much of that one of the two holds. Find it by measuring.");
    case SubstituteProblem::NothingToKeep:
        return StandInDialog::tr("One of the two holds none of that.");
    case SubstituteProblem::TooLarge:
        return StandInDialog::tr("It would take more than any glass holds.");
    }
    return {};
}

QString shownReading(const spec::Reading& reading, Quantity quantity) {
    return readingText(reading, quantity).plain();
}

} // namespace

StandInDialog::StandInDialog(StandInAsk ask, QWidget* parent)
    : QDialog(parent),
      m_ask(std::move(ask)),
      m_offers(preparation::standInsFor(m_ask.spec, m_ask.line, *m_ask.larder, *m_ask.rules)),
      m_filter(new QLineEdit(this)),
      m_list(new QListWidget(this)),
      m_keep(new QComboBox(this)),
      m_asMeasured(new QCheckBox(tr("On the marks of &jigger and scale"), this)),
      m_headline(new WrapLabel(this)),
      m_beside(new WrapLabel(this)),
      m_changes(new QTableWidget(static_cast<int>(kShown.size()), ColumnCount, this)),
      m_note(new WrapLabel(this)) {
    const auto& theme = Theme::current();
    setWindowTitle(tr("Stand-in for this line"));
    auto* title = new QLabel(tr("Instead of %1").arg(lineName()), this);
    title->setFont(theme.font(Type::Title));
    title->setTextFormat(Qt::PlainText);
    title->setWordWrap(true);
    m_filter->setAccessibleName(tr("Part of its name"));
    m_filter->setPlaceholderText(tr("part of its name"));
    m_filter->installEventFilter(this);
    m_list->setAccessibleName(tr("What can stand in"));
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setItemDelegate(new TitleDelegate(m_list));
    m_list->setResizeMode(QListView::Adjust);
    m_list->setFont(theme.font(Type::Control));
    m_keep->setAccessibleName(tr("What stays the same"));
    auto* keepLabel = new QLabel(tr("&Keep"), this);
    keepLabel->setBuddy(m_keep);
    auto* keepRow = new QHBoxLayout;
    keepRow->addWidget(keepLabel);
    keepRow->addWidget(m_keep);
    keepRow->addStretch(1);
    m_asMeasured->setChecked(true);
    m_headline->setFont(theme.font(Type::ReadingServed));
    m_beside->setFont(theme.font(Type::Control));
    m_note->setFont(theme.font(Type::Control));
    m_changes->setAccessibleName(tr("What changes, as served"));
    m_changes->setHorizontalHeaderLabels({tr("as served"), tr("now"), tr("then"), tr("change"), QString()});
    for (int column = 0; column < ColumnCount; ++column) // over their own figures
        m_changes->horizontalHeaderItem(column)->setTextAlignment(
            (column == Name || column == Unit ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
    m_changes->verticalHeader()->hide();
    m_changes->horizontalHeader()->setSectionsClickable(false);
    m_changes->horizontalHeader()->setFont(theme.font(Type::Caption));
    m_changes->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    m_changes->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_changes->setSelectionMode(QAbstractItemView::NoSelection);
    m_changes->setShowGrid(false);
    m_changes->setTabKeyNavigation(false);
    m_changes->setFrameShape(QFrame::NoFrame);
    m_changes->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_changes->verticalHeader()->setDefaultSectionSize(theme.pxInt(25));
    m_changes->horizontalHeader()->setFixedHeight(theme.pxInt(24));
    m_changes->setFixedHeight(theme.pxInt(25) * m_changes->rowCount() + theme.pxInt(24) + 2);

    auto* buttons = new QDialogButtonBox(this);
    m_accept = buttons->addButton(tr("&Pour it instead"), QDialogButtonBox::AcceptRole);
    m_accept->setProperty("act", true);
    m_accept->setDefault(true);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_accept, &QPushButton::clicked, this, [this] {
        if (!m_found) return;
        Q_EMIT specAsked(m_found->spec, tr("Instead of %1: %2").arg(lineName(), m_headline->text()));
        accept();
    });
    connect(m_filter, &QLineEdit::textEdited, this, [this] { fill(); });
    connect(m_list, &QListWidget::currentRowChanged, this, [this] { onChosen(); });
    connect(m_list, &QListWidget::itemActivated, m_accept, &QPushButton::click);
    connect(m_asMeasured, &QCheckBox::toggled, this, [this] { onKeep(); });
    connect(m_keep, &QComboBox::activated, this, [this](int at) {
        m_asked = m_keeps[static_cast<std::size_t>(at)];
        onKeep();
    });

    auto* left = new QVBoxLayout;
    left->addWidget(m_filter);
    left->addWidget(m_list, 1);
    auto* right = new QVBoxLayout;
    right->addLayout(keepRow);
    right->addWidget(m_asMeasured);
    right->addWidget(m_headline);
    right->addWidget(m_beside);
    right->addWidget(m_changes);
    right->addWidget(m_note);
    right->addStretch(1);
    auto* both = new QHBoxLayout;
    both->setSpacing(theme.pxInt(20));
    both->addLayout(left, 2);
    both->addLayout(right, 3);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(theme.pxInt(20), theme.pxInt(16), theme.pxInt(20), theme.pxInt(16));
    all->setSpacing(theme.pxInt(10));
    all->addWidget(title);
    all->addLayout(both, 1);
    all->addWidget(buttons);
    resize(theme.pxInt(760), theme.pxInt(480));
    setMinimumWidth(theme.pxInt(640));
    fill();
    m_filter->setFocus();
}

QString StandInDialog::lineName() const {
    return fromCore(m_ask.spec.lines[m_ask.line].name);
}

QString StandInDialog::headline() const {
    return m_headline->text();
}
QString StandInDialog::beside() const {
    return m_beside->text();
}
QString StandInDialog::note() const {
    return m_note->text();
}

// "37.5 ml heather honey syrup and 5 ml water"
QString StandInDialog::pouredWords(const preparation::Substitution& found) const {
    const auto& line = found.spec.lines[m_ask.line];
    const auto amount = [](const spec::Measured& poured) {
        return QString(amountNumber(poured) + kNarrowSpace + amountUnit(poured));
    };
    QString words = QString(amount(line.poured) + u' ' + fromCore(line.name));
    if (found.waterAddedG > 0 && found.spec.lines.size() > m_ask.spec.lines.size())
        words += tr(" and %1 water").arg(amount(found.spec.lines[m_ask.line + 1].poured));
    return words;
}

void StandInDialog::fill() {
    const auto wanted = base::foldedWords(toCore(m_filter->text()));
    m_list->clear();
    for (std::size_t i = 0; i < m_offers.size(); ++i) {
        const auto* known = m_ask.larder->find(m_offers[i].ingredient);
        const auto name = base::fold(known->name);
        if (!std::all_of(wanted.begin(), wanted.end(),
                         [&](const std::string& word) { return name.find(word) != std::string::npos; }))
            continue;
        auto* item = new QListWidgetItem(fromCore(known->name), m_list);
        item->setData(Qt::UserRole, static_cast<int>(i));
        item->setToolTip(sortWord(*known, known == larder::Handbook::builtIn().find(known->id)));
    }
    m_list->setCurrentRow(m_list->count() > 0 ? 0 : -1);
    if (m_list->count() == 0) onChosen();
}

void StandInDialog::onChosen() {
    m_keep->clear();
    m_keeps.clear();
    if (const auto* item = m_list->currentItem())
        m_keeps = m_offers[static_cast<std::size_t>(item->data(Qt::UserRole).toInt())].keeps;
    for (const Keep keep : m_keeps)
        m_keep->addItem(keepWord(keep));
    const auto at = m_asked ? std::find(m_keeps.begin(), m_keeps.end(), *m_asked) : m_keeps.end();
    m_keep->setCurrentIndex(at == m_keeps.end() ? (m_keeps.empty() ? -1 : 0)
                                                : static_cast<int>(at - m_keeps.begin()));
    m_keep->setEnabled(m_keeps.size() > 1);
    onKeep();
}

void StandInDialog::onKeep() {
    m_found.reset();
    QString headline;
    QString beside;
    QString note;
    const auto* item = m_list->currentItem();
    if (m_offers.empty()) {
        headline = tr("Nothing stands in for it");
        note = tr(
            "It is neither sweet nor strong nor sour, or nobody knows how much: only sugar, alcohol and acid "
            "can be kept the same. Its facts stand in the larder.");
    } else if (item == nullptr) {
        headline = tr("Nothing of that name");
        note = tr("Type less, and the list is longer.");
    } else {
        const auto& offer = m_offers[static_cast<std::size_t>(item->data(Qt::UserRole).toInt())];
        const auto keep = m_keeps[static_cast<std::size_t>(m_keep->currentIndex())];
        const auto with = [&](preparation::Amounts amounts) {
            return preparation::substituted(m_ask.spec, m_ask.line, offer.ingredient, keep, *m_ask.larder,
                                            *m_ask.rules, amounts, m_ask.scaleStepG);
        };
        const bool measured = m_asMeasured->isChecked();
        const auto found = with(measured ? preparation::Amounts::AsMeasured : preparation::Amounts::Exact);
        if (found) {
            m_found = *found;
            headline = pouredWords(*found);
            if (const auto other =
                    with(measured ? preparation::Amounts::Exact : preparation::Amounts::AsMeasured))
                beside = (measured ? tr("Exactly %1.") : tr("On the marks %1.")).arg(pouredWords(*other));
            note = QString(waterSentence() + u' ' + allergenSentences()).trimmed();
        } else {
            headline = tr("Not as it stands");
            note = problemSentence(found.error());
        }
    }
    if (!m_ask.writable) note += tr(" This cannot be written to: it is only looked at.");
    m_headline->setText(headline);
    m_beside->setText(beside);
    m_beside->setVisible(!beside.isEmpty());
    m_asMeasured->setEnabled(m_found.has_value());
    m_note->setText(note);
    m_accept->setEnabled(m_found.has_value() && m_ask.writable);
    showChanges();
}

void StandInDialog::showChanges() {
    const auto& now = m_ask.now[spec::Stage::Served];
    for (int row = 0; row < m_changes->rowCount(); ++row) {
        const Quantity quantity = kShown[static_cast<std::size_t>(row)];
        const preparation::Change* change = nullptr;
        if (m_found)
            for (const auto& each : m_found->changes)
                if (each.quantity == quantity) change = &each;
        const QString was = shownReading(now[quantity], quantity);
        QString difference;
        if (m_found && change == nullptr)
            difference = tr("same");
        else if (change != nullptr) {
            const auto by = differenceText(change->before, change->after, quantity);
            difference = by.text.isEmpty() ? tr("other") : by.text;
        }
        const QString then = !m_found ? QString() : change ? shownReading(change->after, quantity) : was;
        const QString unit = quantity == Quantity::Cost ? currencySign(m_ask.rules->currency)
                                                        : fromCore(spec::quantityUnit(quantity));
        const std::array texts{quantityName(quantity), was, then, difference, unit};
        for (int column = 0; column < ColumnCount; ++column) {
            auto* cell = new QTableWidgetItem(texts[static_cast<std::size_t>(column)]);
            const bool number = column == Now || column == Then || column == Difference;
            cell->setTextAlignment((number ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
            m_changes->setItem(row, column, cell);
        }
    }
}

QString StandInDialog::waterSentence() const {
    if (m_found->waterTooMuchG >= 0.05)
        return tr("It brings %1 g of water more, which nothing takes out: the drink is so much longer.")
            .arg(number(m_found->waterTooMuchG, 1));
    if (m_found->waterAddedG < 0.05 && m_found->waterLackingG >= 0.05)
        return tr("It lacks %1 g of water, too little for a mark: it is left out.")
            .arg(number(m_found->waterLackingG, 1));
    if (m_found->waterAddedG >= 0.05) return tr("The water that it lacks is made up behind it.");
    return tr("It brings the same water.");
}

QString StandInDialog::allergenSentences() const {
    const auto names = [](const std::vector<std::string>& ids) {
        QStringList all;
        for (const auto& id : ids)
            all << allergenName(fromCore(id));
        return all.join(u", "_s);
    };
    const auto& change = m_found->allergens;
    QStringList sentences;
    if (!change.gained.empty()) sentences << tr("Allergens gained: %1.").arg(names(change.gained));
    if (!change.lost.empty()) sentences << tr("Allergens lost: %1.").arg(names(change.lost));
    if (change.notStated)
        sentences << tr("It states no allergens: it may hold any.");
    else if (change.wasNotStated)
        sentences << tr("What it stands for stated no allergens.");
    else if (change.gained.empty() && change.lost.empty())
        sentences << tr("The same allergens.");
    return sentences.join(u' ');
}

// From the field the arrows walk the list and Enter accepts.
bool StandInDialog::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_filter && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const int step = key->key() == Qt::Key_Down ? 1 : key->key() == Qt::Key_Up ? -1 : 0;
        if (step != 0 && m_list->count() > 0) {
            m_list->setCurrentRow(std::clamp(m_list->currentRow() + step, 0, m_list->count() - 1));
            return true;
        }
    }
    return QDialog::eventFilter(watched, event);
}

} // namespace stillroom::ui
