#include "ui/panels/preparation/batch_dialog.h"

#include "core/larder/price_history.h"
#include "core/preparation/batch.h"
#include "ui/panels/preparation/preparation_values.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/preparation_words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/number_edit.h"
#include "ui/widgets/wrap_label.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr double kTwoPercent = 0.02;

} // namespace

BatchDialog::BatchDialog(BatchAsk ask, QWidget* parent)
    : QDialog(parent),
      m_ask(std::move(ask)),
      m_times(new NumberEdit(this)),
      m_outputMl(new NumberEdit(this)),
      m_outputG(new NumberEdit(this)),
      m_haveLine(new QComboBox(this)),
      m_have(new NumberEdit(this)),
      m_haveUnit(new QLabel(this)),
      m_smallest(new QPushButton(tr("The &smallest my scale weighs to 2 %"), this)),
      m_lines(new QTableWidget(0, 3, this)),
      m_comesTo(new WrapLabel(this)),
      m_madeOn(new QLineEdit(fromCore(m_ask.today), this)),
      m_gotMl(new NumberEdit(this)),
      m_strength(new NumberEdit(this)),
      m_lotNote(new QLineEdit(this)),
      m_inUse(new QCheckBox(tr("&Pour from this one from now on"), this)),
      m_useBy(new QLabel(this)),
      m_note(new WrapLabel(this)),
      m_keep(nullptr),
      m_take(nullptr) {
    const auto& theme = Theme::current();
    setWindowTitle(tr("Make a batch"));
    auto* title = new QLabel(m_ask.name, this);
    title->setFont(theme.font(Type::Title));
    title->setTextFormat(Qt::PlainText);

    const auto newRow = [&] {
        auto* row = new QHBoxLayout;
        row->setSpacing(theme.pxInt(6));
        return row;
    };
    const auto field = [&](QWidget* edit, const QString& unit) {
        auto* row = newRow();
        edit->setFixedWidth(theme.pxInt(84));
        row->addWidget(edit);
        if (!unit.isEmpty()) row->addWidget(new QLabel(unit, this));
        row->addStretch(1);
        return row;
    };
    // A form gives a label its field only where that is one widget.
    const auto addRow = [&](QFormLayout* form, const QString& text, QHBoxLayout* row, QWidget* edit) {
        auto* label = new QLabel(text, this);
        label->setBuddy(edit);
        form->addRow(label, row);
    };
    auto* size = new QFormLayout;
    size->setHorizontalSpacing(theme.pxInt(12));
    addRow(size, tr("&Times the written batch"), field(m_times, {}), m_times);
    auto* output = newRow();
    for (auto* edit : {m_outputMl, m_outputG})
        edit->setFixedWidth(theme.pxInt(84));
    output->addWidget(m_outputMl);
    output->addWidget(new QLabel(tr("ml, or"), this));
    output->addWidget(m_outputG);
    output->addWidget(new QLabel(tr("g"), this));
    output->addStretch(1);
    addRow(size, tr("&Output wanted"), output, m_outputMl);
    auto* input = newRow();
    m_have->setFixedWidth(theme.pxInt(84));
    input->addWidget(m_have);
    input->addWidget(m_haveUnit);
    input->addWidget(m_haveLine, 1);
    addRow(size, tr("&Input there is"), input, m_have);
    size->addRow(QString(), m_smallest);
    m_times->setAccessibleName(tr("Times the written batch"));
    m_outputMl->setAccessibleName(tr("Output wanted, ml"));
    m_outputG->setAccessibleName(tr("Output wanted, g"));
    m_have->setAccessibleName(tr("How much of that input there is"));
    m_haveLine->setAccessibleName(tr("Which input"));
    for (std::size_t i = 0; i < m_ask.spec.lines.size(); ++i)
        if (m_ask.spec.lines[i].poured.amount.isStated())
            m_haveLine->addItem(fromCore(m_ask.spec.lines[i].name), static_cast<int>(i));
    m_haveLine->setMinimumContentsLength(12);
    m_haveLine->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    const auto smallest = preparation::smallestFactor(m_ask.spec, m_ask.scaleStep, kTwoPercent);
    m_smallest->setVisible(smallest.has_value());

    m_lines->setAccessibleName(tr("What to weigh and measure"));
    m_lines->setHorizontalHeaderLabels({tr("amount"), tr("line"), tr("weighed to")});
    m_lines->verticalHeader()->hide();
    m_lines->horizontalHeader()->setSectionsClickable(false);
    m_lines->horizontalHeader()->setSectionResizeMode(1, QHeaderView::Stretch);
    m_lines->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_lines->setSelectionMode(QAbstractItemView::NoSelection);
    m_lines->setShowGrid(false);
    m_lines->setTabKeyNavigation(false);
    m_lines->setMinimumHeight(theme.pxInt(120));

    auto* afterwards = new QLabel(tr("When it is made"), this);
    afterwards->setFont(theme.font(Type::Heading));
    auto* result = new QFormLayout;
    result->setHorizontalSpacing(theme.pxInt(12));
    auto* day = newRow();
    m_madeOn->setFixedWidth(theme.pxInt(110));
    day->addWidget(m_madeOn);
    day->addWidget(m_useBy);
    day->addStretch(1);
    addRow(result, tr("M&ade on"), day, m_madeOn);
    addRow(result, tr("&Yield measured"), field(m_gotMl, tr("ml at 20 °C; open while nobody measured")),
           m_gotMl);
    addRow(result, tr("St&rength measured"), field(m_strength, tr("% vol")), m_strength);
    result->addRow(tr("&Note"), m_lotNote);
    m_madeOn->setAccessibleName(tr("Day it was made, as 2026-11-25"));
    m_gotMl->setAccessibleName(tr("Yield measured, ml"));
    m_strength->setAccessibleName(tr("Strength measured, % vol"));
    m_lotNote->setAccessibleName(tr("Note to this batch"));
    m_inUse->setChecked(true);

    auto* buttons = new QDialogButtonBox(this);
    m_keep = buttons->addButton(tr("Note it as &made"), QDialogButtonBox::AcceptRole);
    m_keep->setProperty("act", true);
    m_keep->setDefault(true);
    m_take = buttons->addButton(tr("Put these amounts in the &draft"), QDialogButtonBox::ActionRole);
    buttons->addButton(tr("Close"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_keep, &QPushButton::clicked, this, [this] {
        if (const auto noted = lot()) {
            Q_EMIT lotAsked(*noted, m_inUse->isChecked());
            accept();
        }
    });
    connect(m_take, &QPushButton::clicked, this, [this] {
        if (const auto scaled = preparation::scaledBatch(m_ask.spec, m_factor)) {
            Q_EMIT specAsked(*scaled);
            accept();
        }
    });
    connect(m_times, &QLineEdit::textEdited, this, [this] { setFactor(m_times->value(), m_times); });
    connect(m_outputMl, &QLineEdit::textEdited, this, [this] {
        const auto ml = m_outputMl->value();
        setFactor(ml ? preparation::factorForOutput(m_ask.made, quantity::Volume::fromMl(*ml)) : std::nullopt,
                  m_outputMl);
    });
    connect(m_outputG, &QLineEdit::textEdited, this, [this] {
        const auto g = m_outputG->value();
        setFactor(g ? preparation::factorForOutput(m_ask.made, quantity::Mass::fromGrams(*g)) : std::nullopt,
                  m_outputG);
    });
    connect(m_have, &QLineEdit::textEdited, this, [this] {
        const auto there = m_have->value();
        const auto line = static_cast<std::size_t>(std::max(m_haveLine->currentData().toInt(), 0));
        setFactor(there ? preparation::factorForInput(m_ask.spec, line, *there) : std::nullopt, m_have);
    });
    connect(m_haveLine, &QComboBox::activated, this, [this] { refresh(); });
    connect(m_smallest, &QPushButton::clicked, this, [this] {
        setFactor(preparation::smallestFactor(m_ask.spec, m_ask.scaleStep, kTwoPercent), nullptr);
    });
    for (auto* edit : {static_cast<QLineEdit*>(m_madeOn), static_cast<QLineEdit*>(m_gotMl),
                       static_cast<QLineEdit*>(m_strength)})
        connect(edit, &QLineEdit::textEdited, this, [this] { refresh(); });

    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(20, 16, 20, 16);
    all->setSpacing(theme.pxInt(8));
    all->addWidget(title);
    all->addLayout(size);
    all->addWidget(m_lines, 1);
    all->addWidget(m_comesTo);
    all->addSpacing(theme.pxInt(4));
    all->addWidget(afterwards);
    all->addLayout(result);
    all->addWidget(m_inUse);
    all->addWidget(m_note);
    all->addWidget(buttons);
    setMinimumWidth(theme.pxInt(520));
    resize(theme.pxInt(540), theme.pxInt(600));
    setFactor(1, nullptr);
    m_times->setFocus();
    m_times->selectAll();
}

void BatchDialog::setFactor(std::optional<double> factor, const QWidget* typed) {
    m_sound = factor && preparation::scaledBatch(m_ask.spec, *factor).has_value();
    if (m_sound) m_factor = *factor;
    const auto tell = [&](NumberEdit* edit, double value, int decimals) {
        if (edit != typed) edit->setValue(m_sound ? std::optional(value) : std::nullopt, decimals);
    };
    tell(m_times, m_factor, 3);
    if (m_ask.made.yield.ml() > 0)
        tell(m_outputMl, m_ask.made.yield.ml() * m_factor, 1);
    else
        m_outputMl->setEnabled(false);
    tell(m_outputG, m_ask.made.mass.grams() * m_factor, 1);
    if (typed != m_have) m_have->clear();
    refresh();
}

void BatchDialog::refresh() {
    const auto line = static_cast<std::size_t>(std::max(m_haveLine->currentData().toInt(), 0));
    if (line < m_ask.spec.lines.size()) m_haveUnit->setText(amountUnit(m_ask.spec.lines[line].poured));
    QStringList problems;
    const auto scaled = preparation::scaledBatch(m_ask.spec, m_factor);
    if (!m_sound || !scaled) {
        problems << tr(
            "That is no batch: it must be above nothing and fit a pot. The amounts stand as before.");
    }
    if (scaled) {
        const auto weighings = preparation::weighings(m_ask.spec, m_factor, m_ask.scaleStep);
        m_lines->setRowCount(static_cast<int>(scaled->lines.size()));
        QStringList coarse;
        for (std::size_t i = 0; i < scaled->lines.size(); ++i) {
            const int row = static_cast<int>(i);
            const auto at = std::find_if(weighings.begin(), weighings.end(),
                                         [&](const preparation::Weighing& each) { return each.line == i; });
            QString error;
            if (at != weighings.end()) {
                error = tr("%1 %").arg(number(100 * at->error, at->error < 0.0995 ? 1 : 0));
                if (at->error > kTwoPercent * (1 + 1e-9)) coarse << fromCore(scaled->lines[i].name);
            }
            m_lines->setItem(row, 0, new QTableWidgetItem(amountForEditing(scaled->lines[i].poured)));
            m_lines->setItem(row, 1, new QTableWidgetItem(fromCore(scaled->lines[i].name)));
            m_lines->setItem(row, 2, new QTableWidgetItem(error));
        }
        m_lines->resizeColumnToContents(0);
        if (!coarse.isEmpty())
            problems << tr("A scale that tells %1 g apart does not weigh %2 to 2 % in so small a batch.")
                            .arg(trimmedNumber(m_ask.scaleStep.grams(), 3), coarse.join(u", "_s));
    }
    QStringList comes;
    const QString most = m_ask.made.yieldAtMost ? tr("at most ") : QString();
    if (m_ask.made.yield.ml() > 0)
        comes << most + tr("%1 ml").arg(number(m_ask.made.yield.ml() * m_factor, 0));
    comes << most + tr("%1 g").arg(number(m_ask.made.mass.grams() * m_factor, 0));
    if (m_ask.made.cost)
        comes << currencySign(m_ask.bindings->rules().currency) + kNarrowSpace +
                     number(m_ask.made.cost->major() * m_factor, 2);
    m_comesTo->setText(tr("Comes to %1.").arg(comes.join(u", "_s)));

    const bool dated = larder::isCivilDate(toCore(m_madeOn->text().trimmed()));
    if (!dated) {
        problems << tr("The day is written as 2026-11-25.");
        m_useBy->clear();
    } else {
        const auto madeOn = toCore(m_madeOn->text().trimmed());
        const auto until = lastDay(madeOn);
        m_useBy->setText(until ? tr("use by %1").arg(civilDayText(*until, m_ask.today))
                               : tr("no date: nobody said how long it keeps"));
        if (const auto past =
                pastPartsSentence(m_ask.spec, preparation::pastOn(madeOn, m_ask.parts), m_ask.today);
            !past.isEmpty())
            problems << past;
    }
    const auto wrong = [](const NumberEdit* edit) { return edit->isUnreadable(); };
    if (wrong(m_gotMl) || (m_gotMl->value() && !(*m_gotMl->value() > 0)))
        problems << tr("A measured yield is a number of ml above nothing.");
    if (wrong(m_strength) || (m_strength->value() && *m_strength->value() > 100))
        problems << tr("A strength lies between 0 and 100 % vol.");
    m_note->setText(problems.join(u' '));
    m_note->setVisible(!problems.isEmpty());
    m_keep->setEnabled(m_ask.writable && m_sound && lot().has_value());
    m_take->setEnabled(m_ask.writable && m_sound && m_factor != 1);
}

std::optional<std::string> BatchDialog::lastDay(const std::string& madeOn) const {
    return preparation::useBy(madeOn, m_ask.keeping, preparation::bindingOn(madeOn, m_ask.parts));
}

std::optional<larder::Lot> BatchDialog::lot() const {
    larder::Lot lot;
    lot.id = base::LotId::random();
    lot.ingredient = m_ask.ingredient;
    lot.madeFrom = m_ask.madeFrom;
    lot.on = toCore(m_madeOn->text().trimmed());
    if (!larder::isCivilDate(lot.on)) return std::nullopt;
    lot.useBy = lastDay(lot.on).value_or(std::string());
    if (m_gotMl->isUnreadable() || m_strength->isUnreadable()) return std::nullopt;
    if (const auto ml = m_gotMl->value()) {
        if (!(*ml > 0)) return std::nullopt;
        lot.gotMl = *ml;
    }
    if (const auto strength = m_strength->value()) {
        if (*strength > 100) return std::nullopt;
        lot.abvPercent = larder::Fact{*strength,       *strength, *strength, larder::SourceKind::Measured,
                                      "measured here", lot.on};
    }
    lot.note = toCore(m_lotNote->text().trimmed());
    return lot;
}

QString BatchDialog::comesTo() const {
    return m_comesTo->text();
}

QString BatchDialog::useBy() const {
    return m_useBy->text();
}

QString BatchDialog::note() const {
    return m_note->text();
}

} // namespace stillroom::ui
